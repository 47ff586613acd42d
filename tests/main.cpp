// The entry of the one test program: see tests/CMakeLists.txt for what it is made of.
#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

int main(int argc, char** argv) {
  doctest::Context context(argc, argv);
  return context.run();
}
