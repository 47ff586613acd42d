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
        if isinstance(value, list) and value and isinstance(value[0], (int, float)) and path[-1] != "bulkheads_mm":
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
