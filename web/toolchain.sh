# Sourced by web/serve, web/fetch-sources and tests/run: what this project needs of the machine, and where it is.
# Made for Debian 12; on another system it names the missing tools and leaves the installing to the person.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$root/build
jobs=$(nproc)

# A package, or command=package where another source than Debian may have brought the command.
app_packages=(emscripten node=nodejs node-acorn node-terser cmake=cmake ninja=ninja-build libglm-dev libeigen3-dev rapidjson-dev
  libexpected-dev xz=xz-utils)
native_packages=(g++=g++ cmake=cmake ninja=ninja-build doctest-dev libglm-dev libeigen3-dev rapidjson-dev
  libexpected-dev python3-jsonschema xz=xz-utils glpsol=glpk-utils)
check_packages=(clang++=clang clang-format=clang-format clang-tidy=clang-tidy libclang-rt-14-dev npm=npm
  chromium=chromium firefox-esr=firefox-esr WebKitWebDriver=webkit2gtk-driver Xvfb=xvfb libgl1-mesa-dri libegl1
  fonts-dejavu-core)
witness_packages=(python3-scipy python3-gsw python3-iapws)

die() {
  printf '%s\n' "$@" >&2
  exit 1
}

asRoot() {
  if [ "$(id -u)" = 0 ]; then "$@"
  elif command -v sudo > /dev/null; then sudo "$@"
  else die "This needs root: run it as root, or install sudo. It was about to run: $*"
  fi
}

isThere() {  # isThere PACKAGE or COMMAND=PACKAGE
  case $1 in
    *=*) command -v "${1%%=*}" > /dev/null ;;
    *) [ "$(dpkg-query -W -f '${db:Status-Status}' "$1" 2> /dev/null)" = installed ] ;;
  esac
}

# Installs those of the packages that are not there yet; says which, and touches nothing when all are.
installMissing() {
  local wanted missing=()
  command -v dpkg-query > /dev/null ||
    die "This is not a Debian system. Install these by hand (Debian's names): ${*##*=}"
  for wanted in "$@"; do isThere "$wanted" || missing+=("${wanted##*=}"); done
  [ ${#missing[@]} = 0 ] && return
  echo "Installing with apt: ${missing[*]}"
  asRoot apt-get -qq update || die "apt-get update failed: is the network there?"
  asRoot env DEBIAN_FRONTEND=noninteractive apt-get -qq -o Dpkg::Use-Pty=0 install -y --no-install-recommends \
    "${missing[@]}" > /dev/null || die "apt-get could not install: ${missing[*]}"
}

# Emscripten's optimiser and our own seal.mjs need Debian's Node modules; a Node from elsewhere than Debian does not
# look in Debian's module folder by itself.
useEmscripten() {
  local acorn
  acorn=$(dpkg -L node-acorn 2> /dev/null | grep '/nodejs/acorn$') || die "The package node-acorn is missing."
  export NODE_PATH=${acorn%/acorn}${NODE_PATH:+:$NODE_PATH}
}

# The emulator is named because emcmake's own choice adds a flag that newer Nodes refuse.
configureWasm() {  # configureWasm [CMAKE OPTION...]
  emcmake cmake -S "$root" -B "$build/web" -G Ninja -DCMAKE_BUILD_TYPE=Release \
    -DCMAKE_CROSSCOMPILING_EMULATOR="$(command -v node)" "$@"
}
