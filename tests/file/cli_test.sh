#!/bin/bash
# The terminal command from outside: exit codes, what goes to stdout and to stderr. usage: cli_test.sh CHECKOUT PONDTRIM
set -u
checkout=$1 pondtrim=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
boat=$(ls "$checkout"/presets/boats/*.boat.json | head -n 1)
failed=0 passed=0

# expect EXIT PATTERN STREAM WORDS...: runs pondtrim; the named stream must match, the other be empty.
expect() {
  local code=$1 pattern=$2 stream=$3 other=out
  shift 3
  [ "$stream" = out ] && other=err
  "$pondtrim" "$@" > "$scratch/out" 2> "$scratch/err" < "${input:-/dev/null}"
  local result=$?
  if [ $result = "$code" ] && grep -q -e "$pattern" "$scratch/$stream" && [ ! -s "$scratch/$other" ]; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    echo "FAILED: pondtrim $* (exit $result, expected $code and \"$pattern\" on std$stream alone)"
    head -n 5 "$scratch/out" "$scratch/err"
  fi
}

for preset in "$checkout"/presets/boats/*.boat.json; do
  expect 0 '"outcome": "floats' out float "$preset"
  expect 0 '"outcome": "floats' out float "$preset" --fill full
  expect 0 'no fault' out check "$preset"
done
expect 0 '"tank_fill_mL": 12.5' out float "$boat" --fill-mL 12.5
expect 0 '"tank_fill_mL": 0,' out float --fill empty "$boat"
expect 0 '"salinity_g_per_kg": 35' out float "$boat" --salt
expect 0 '"salinity_g_per_kg": 0,' out float "$boat" --fresh
expect 0 '"temperature_degC": 4.5' out float "$boat" --temperature-C 4.5
expect 0 'pondtrim float FILE' out help
expect 0 '"painted_line": ' out hull "$boat"
expect 2 'needs one FILE' err hull
expect 0 '"in_words": ' out mesh "$checkout/tests/fuzz/corpus/mesh/wedge.stl"
expect 0 '"format": "STL, text"' out mesh "$checkout/tests/fuzz/corpus/mesh/wedge-text.stl"
input=$checkout/tests/fuzz/corpus/mesh/faces.obj expect 0 '"closed": false' out mesh -
expect 2 'an STL or OBJ with at least one triangle' err mesh "$boat"
expect 2 'needs one FILE' err mesh
expect 2 'cannot be read' err mesh "$scratch/nowhere.stl"
expect 0 '"found": ' out plan "$boat" --propose-places
expect 0 '"found": ' out plan "$boat" --propose-places --least changes --whole-pieces
expect 0 '"found": ' out plan "$boat" --propose-places --most stability --lead-budget-g 500
expect 0 '"weight_against_stability": ' out plan "$boat" --diagrams
expect 0 '"equilibrium_polygons": ' out plan "$boat" --diagrams --whole-pieces
expect 2 'does not know the option --diagram' err plan "$boat" --diagram
expect 2 'needs a FILE' err plan

# What cannot move water, hold a charge or be a gas is refused by name, by every command that reads the boat.
pumped=$checkout/presets/boats/brindle.boat.json gassed=$checkout/presets/boats/old-kettle.boat.json
refused() {  # refused PATTERN FROM TO FILE
  sed "s/$2/$3/" "$4" > "$scratch/spoilt.boat.json"
  if cmp -s "$4" "$scratch/spoilt.boat.json"; then echo "FAILED: nothing to spoil: $2"; failed=$((failed + 1)); fi
  expect 2 "$1" err ballast "$scratch/spoilt.boat.json"
  expect 2 "$1" err dive "$scratch/spoilt.boat.json"
}
expect 0 '"fill_tired"' out ballast "$pumped"
expect 0 '"blows": ' out ballast "$gassed"
expect 0 '"volume_per_length_mL_per_mm"' out dive "$pumped" --steps 8
refused 'free_flow_mL_per_s .*is 0.*moves no water' '"free_flow_mL_per_s": [0-9.]*' '"free_flow_mL_per_s": 0' "$pumped"
refused 'stall_pressure_bar .*is 0' '"stall_pressure_bar": [0-9.]*' '"stall_pressure_bar": 0' "$pumped"
refused 'rated_voltage_V .*is -11.1' '"rated_voltage_V": ' '"rated_voltage_V": -' "$pumped"
refused 'tired_voltage_V .*is -10.2' '"tired_voltage_V": ' '"tired_voltage_V": -' "$pumped"
refused 'cylinder_air_mL .*is 0.*vent leads nowhere' '"cylinder_air_mL": [0-9.]*' '"cylinder_air_mL": 0' "$pumped"
refused 'vent_diameter_mm .*is 0.*without a vent' '"vent_diameter_mm": [0-9.]*' '"vent_diameter_mm": 0' "$gassed"
refused 'gas .*is "swamp gas"; .*R-134a.*propane' '"gas": "R-134a"' '"gas": "swamp gas"' "$gassed"
expect 2 'depth_m is -1' err ballast "$pumped" --depth-m -1
expect 2 'steps is 1; ' err dive "$pumped" --steps 1
expect 2 'least needs weight or changes' err plan "$boat" --least lead
expect 2 'goal is given twice' err plan "$boat" --least weight --most stability
expect 2 'lead_budget_g is -1' err plan "$boat" --propose-places --lead-budget-g -1
input=$boat expect 0 '"draft_bow_mm"' out float -

expect 2 'fill_mL is 99999; allowed: 0 to' err float "$boat" --fill-mL 99999
expect 2 'fill_mL is -1; allowed: 0 to' err float "$boat" --fill-mL -1
expect 2 'not "ten"' err float "$boat" --fill-mL ten
expect 2 'not "nan"' err float "$boat" --fill-mL nan
expect 2 'not ""' err float "$boat" --fill-mL
expect 2 'empty or full' err float "$boat" --fill half
expect 2 'given twice' err float "$boat" --fill full --fill-mL 3
expect 2 'given twice' err float "$boat" --salt --fresh
expect 2 'temperature_degC is 80; allowed: 0 to 40' err float "$boat" --temperature-C 80
expect 2 'option --deep' err float "$boat" --deep
expect 2 'one FILE' err float "$boat" "$boat"
expect 2 'needs a FILE' err float
expect 2 'needs one FILE' err check
expect 2 'no command "dive-deep"' err dive-deep
expect 2 'pondtrim float' err
expect 2 'cannot be read' err float "$scratch/nothing"
expect 2 'cannot be read' err float "$scratch"
expect 2 'starts with {' err check /dev/null

sed 's/"pondtrim_boat": 1/"pondtrim_boat": 2/' "$boat" > "$scratch/newer"
expect 2 'newer Pondtrim' err float "$scratch/newer"
head -c 1000 "$boat" > "$scratch/cut"
expect 2 '^  where: line ' err check "$scratch/cut"
sed 's/"marks": {/"marks": {"paint": "red", /' "$boat" > "$scratch/paint"
expect 0 'notice: marks.paint is unknown' out check "$scratch/paint"
head -c 5000000 /dev/zero | tr '\0' ' ' > "$scratch/large"
expect 2 'at most 4194304 bytes' err float "$scratch/large"
sed '0,/"parts": \[/s//"parts": [{"name": "anvil", "role": "solid", "shape": {"kind": "point"}, "position_mm": [300, 0, 20], "mass_g": 90000},/' "$boat" > "$scratch/anvil"
expect 0 '"outcome": "sinks"' out float "$scratch/anvil"
expect 0 '"missing_buoyancy_g"' out float "$scratch/anvil"

log() { sed '0,/"marks": {/s//"log": ['"$1"'], "marks": {/' "$boat"; }
log '{"tank": "empty", "bow_mm": 8, "stern_mm": -8, "heel_deg": 1}, {"tank": "full", "sail_showing_mm": 32, "trim_deg": 5, "heel_deg": 1}' > "$scratch/log"
expect 0 'no fault' out check "$scratch/log"
expect 0 '"heavier_g"' out correct "$scratch/log"
expect 0 '"say": "' out correct "$scratch/log"
expect 0 'The height of her weight (G) does not show' out correct "$scratch/log"
expect 0 'There is no reading yet' out correct "$boat"
expect 0 '"correction": {' out correct "$scratch/log" --apply
"$pondtrim" correct --apply "$scratch/log" > "$scratch/applied"
expect 0 'no fault' out check "$scratch/applied"
expect 0 '"outcome": "floats' out float "$scratch/applied"
expect 0 'not read since the last change' out correct "$scratch/applied"
log '{"tank": "empty", "bow_mm": -8, "stern_mm": 6, "heel_deg": 2}' > "$scratch/half"
"$pondtrim" correct --apply "$scratch/half" > "$scratch/half.boat" 2> "$scratch/half.told"
expect 0 'no fault' out check "$scratch/half.boat"
if grep -q 'No change is put in: the next step is "read with the tank full"' "$scratch/half.told"; then
  passed=$((passed + 1))
else
  failed=$((failed + 1))
fi
input="$scratch/log" expect 0 '"next_change"' out correct -
log '{"tank": "empty", "bow_mm": 6000}' > "$scratch/slip"
expect 2 'log\[0\].bow_mm (line [0-9]*) is 6000; allowed: -1000 to 1000' err correct "$scratch/slip"
log '{"tank": "empty", "bow_in": 1}' > "$scratch/slip"
expect 2 'belongs under the key bow_mm' err correct "$scratch/slip"
expect 2 'option --aply' err correct "$boat" --aply
expect 2 'one FILE' err correct "$boat" "$boat"
expect 2 'needs a FILE' err correct --apply

echo "$passed passed, $failed failed"
[ $failed = 0 ] && [ $passed -gt 30 ]
