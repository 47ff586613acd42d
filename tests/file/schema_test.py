#!/usr/bin/python3
"""presets/boat.schema.json against the program: usage schema_test.py CHECKOUT PONDTRIM

Every preset keeps to the schema. Then every value of a preset is spoilt in several ways, one at a time: what
the schema refuses, `pondtrim check` must refuse too, and what breaks the form of the file both must refuse.
"""
import copy
import glob
import json
import subprocess
import sys

import jsonschema

checkout, pondtrim = sys.argv[1:]
schema = json.load(open(checkout + "/presets/boat.schema.json"))
validator_class = jsonschema.Draft202012Validator
validator_class.check_schema(schema)
validator = validator_class(schema)
failures = []


def refused_by_program(boat):
    run = subprocess.run([pondtrim, "check", "-"], input=json.dumps(boat).encode(), capture_output=True)
    if run.returncode not in (0, 2):
        failures.append("pondtrim check ended with %d" % run.returncode)
    return run.returncode == 2


def places(value, path=()):
    """Paths of everything below the value."""
    children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, child in children:
        yield path + (key,)
        yield from places(child, path + (key,))


lists = ("bulkheads_mm", "heights_mm", "half_breadths_mm")  # of any length


def spoilt(boat, path):
    """(what was done, must it be refused?, the boat)"""
    def edit(change):
        copied = copy.deepcopy(boat)
        parent = copied
        for key in path[:-1]:
            parent = parent[key]
        change(parent, path[-1])
        return copied

    def put(value):
        return edit(lambda parent, key: parent.__setitem__(key, value))

    value = boat
    for key in path:
        value = value[key]
    yield "left out", False, edit(lambda parent, key: parent.__delitem__(key))
    yield "null", True, put(None)
    if isinstance(value, bool):
        yield "a number for true", True, put(1)
    elif isinstance(value, (int, float)):
        yield "a text for a number", True, put(str(value))
        yield "far too large", True, put(1e12)
        yield "far too small", True, put(-1e12)
    elif isinstance(value, str):
        yield "a number for a text", True, put(5)
    else:
        yield "a number for a list or object", True, put(5)
        if isinstance(value, list) and value and isinstance(value[0], (int, float)) and path[-1] not in lists:
            yield "a fourth coordinate", True, put(value + [0])


presets = sorted(glob.glob(checkout + "/presets/boats/*.boat.json"))
assert presets, "no presets"
compared = both = 0
for preset in presets:
    boat = json.load(open(preset))
    for error in validator.iter_errors(boat):
        failures.append("%s: %s" % (preset, error.message))

# One boat is enough to spoil: the one with the most kinds of things in it.
boat = max((json.load(open(p)) for p in presets), key=lambda b: len(list(places(b))))
foam = next(part["name"] for part in boat["parts"] if part["role"] == "foam")
lead = next(part["name"] for part in boat["parts"] if part["role"] == "lead")
boat["log"] = [
    {"date": "2026-05-02", "tank": "empty", "used": False, "bow_mm": 3, "bow_spread_mm": 2, "stern_mm": -1.5,
     "stern_spread_mm": 1, "heel_deg": 1, "heel_spread_deg": 0.5, "shifted_mass_g": 50, "shifted_by_mm": 40,
     "installed": [{"part": foam, "volume_mL": 1}, {"part": lead, "mass_g": 2, "at_x_mm": 300}]},
    {"tank": "full", "note": "rain", "water": {"temperature_degC": 9, "salinity_g_per_kg": 0}, "sail_showing_mm": 30,
     "sail_showing_spread_mm": 2, "trim_deg": -1, "trim_spread_deg": 0.3},
    {"tank": "measured", "tank_fill_mL": 100, "pull_g": 20, "pull_spread_g": 3, "held_x_mm": 300,
     "held_z_mm": 90},
    {"tank": "full", "sail_showing_mm": 30, "laid_mass_g": 60},
    {"tank": "full", "bow_pull_g": 12, "bow_pull_spread_g": 2, "stern_pull_g": 8, "stern_pull_spread_g": 2,
     "bow_hook_x_mm": 700, "stern_hook_x_mm": 100}]
boat["correction"] = {"mass_g": 30, "mass_moment_g_mm": [100, 0, -50], "upper_volume_mL": 3, "upper_x_mL_mm": 200,
                      "upper_y_mL_mm": 0, "tank_factor": 1.01}
station = {"heights_mm": [0, 30, 60], "half_breadths_mm": [0, 20, 0]}
boat["skins"] += [
    {"name": name, "form": form, "position_mm": [100, 0, 50], "thickness_mm": 2, "density_kg_per_m3": 1500}
    for name, form in {
        "a": {"kind": "suboff", "length_mm": 300, "diameter_mm": 35, "nose_length_mm": 70, "tail_length_mm": 77},
        "b": {"kind": "myring", "diameter_mm": 40, "nose_length_mm": 50, "middle_length_mm": 90, "tail_length_mm": 100,
              "nose_offset_mm": 2, "tail_offset_mm": 3, "nose_power": 2, "tail_angle_deg": 20},
        "c": {"kind": "casing", "length_mm": 300, "breadth_mm": 30, "height_mm": 10, "nose_length_mm": 50,
              "tail_length_mm": 60, "nose_root": 2, "tail_root": 1, "section_power": 8},
        "d": {"kind": "plate", "length_mm": 60, "tip_length_mm": 40, "span_mm": 50, "rake_mm": 5, "slant_deg": -90,
              "mirrored": True},
        "e": {"kind": "offsets", "stations": [{"at_x_mm": 0, "heights_mm": [30], "half_breadths_mm": [0]},
                                              {"at_x_mm": 100, **station}, {"at_x_mm": 200, **station}]}}.items()]
boat["openings"] = [{"name": "vent", "skin": "a", "position_mm": [100, 0, 80], "diameter_mm": 4}]
assert validator.is_valid(boat) and not refused_by_program(boat), "the log to be spoilt is not good itself"
seen = set()
for path in places(boat):
    sort = path
    if path[0] == "parts" and len(path) > 2:  # parts of the same role and shape need one turn
        part = boat["parts"][path[1]]
        sort = (part["role"], part["shape"]["kind"]) + path[2:]
    if sort in seen:
        continue
    seen.add(sort)
    for what, must, bad in spoilt(boat, path):
        by_schema, by_program = not validator.is_valid(bad), refused_by_program(bad)
        compared += 1
        both += by_schema and by_program
        where = "%s, %s" % ("/".join(map(str, path)), what)
        if by_schema and not by_program:
            failures.append("only the schema refuses " + where)
        if must and not (by_schema and by_program):
            failures.append("%s is let through by %s" % (where, "the program" if by_schema else "the schema"))

print("%d presets, %d spoilt files, %d refused by both" % (len(presets), compared, both))
print("\n".join(failures))
sys.exit(1 if failures or both < 300 else 0)
