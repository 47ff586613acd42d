#!/usr/bin/python3
"""Plants faults in the core, one at a time, and shows that a test fails for each: tests/mutations.py [WORD...]

Needs build/native built (tests/run --quick). Of each fault one source file is compiled and the test program linked anew,
into build/mutations; the checkout and its build are left as they are. Words choose faults by name. A fault that every
test lets pass is a hole in the tests. One whose place is gone, or that does not compile, is an error of this list.
"""
import json
import os
import shlex
import shutil
import subprocess
import sys
import time

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
NATIVE = os.path.join(ROOT, "build", "native")
OUT = os.path.join(ROOT, "build", "mutations")
LIBRARY, PROGRAM = os.path.join("core", "libpondtrim_core.a"), os.path.join("tests", "pondtrim_tests")

# What is planted: name, file in core/src, text that stands there once, what stands there instead, and the test source
# (folder/file, without .cpp) that is expected to notice. The whole suite would notice more; one witness is enough.
FAULTS = [
    ("heel to the wrong side", "equilibrium.cpp", "std::atan2(up.y, up.z)}", "std::atan2(-up.y, up.z)}", "identities/balance_test"),
    ("trim to the wrong end", "equilibrium.cpp", "std::atan2(up.x, std::hypot(up.y, up.z))", "std::atan2(-up.x, std::hypot(up.y, up.z))", "identities/balance_test"),
    ("tank water left out of the weight", "energy.cpp", "model.mass + p.density * tank->volume", "model.mass", "identities/balance_test"),
    ("tank water weighed as fresh water", "energy.cpp", "(s.tank.moment - p.origin * s.tank.volume) * p.density", "(s.tank.moment - p.origin * s.tank.volume) * 1000.0", "identities/balance_test"),
    ("free surface dropped from the stiffness", "energy.cpp", "addScaled(k, s.tank.stiffness_loss, -p.density);", "", "identities/balance_test"),
    ("free surface added instead of taken off", "report.cpp", "r.bm_transverse.value_or(0.0) + bg - r.free", "r.bm_transverse.value_or(0.0) + bg + r.free", "identities/balance_test"),
    ("free surface about the wrong point", "tank_level.cpp", "addOuter(out.stiffness_loss, s.cut.plane_moment, -cell.scale / s.cut.plane_area);", "", "identities/tank_test"),
    ("water in each cell not scaled by the measured capacity", "tank_level.cpp", "out.moment += s.cut.moment * cell.scale;", "out.moment += s.cut.moment;", "identities/tank_test"),
    ("tank water frozen as the boat turns", "energy.cpp", "p.frozen ? *p.frozen : *settleTank(*p.model, p.fill, up)", "p.frozen ? *p.frozen : *settleTank(*p.model, p.fill, Vec3(0, 0, 1))", "identities/balance_test"),
    ("BM about the boat's origin", "report.cpp", "- first * first / cut.plane_area;", "- 0 * first;", "outside/floating_bodies_test"),
    ("BM over mass instead of volume", "report.cpp", "planeInertia(e.cut, d.heel) / e.cut.volume", "planeInertia(e.cut, d.heel) / e.mass", "outside/floating_bodies_test"),
    ("GM along taken for GM across", "report.cpp", "r.bm_transverse = planeInertia(e.cut, d.heel)", "r.bm_transverse = planeInertia(e.cut, d.trim)", "outside/floating_bodies_test"),
    ("g left out of the moment to trim", "report.cpp", "e.mass * kGravity * r.gm_longitudinal", "e.mass * r.gm_longitudinal", "identities/sensitivities_test"),
    ("marks read at the stern for the bow", "report.cpp", "r.bow = readMark(plane, model.marks.bow_x,", "r.bow = readMark(plane, model.marks.stern_x,", "identities/balance_test"),
    ("a mirrored part once only", "model.cpp", "if (part.mirrored) addPiece(", "if (false && part.mirrored) addPiece(", "identities/transformations_test"),
    ("the mirrored part on the same side", "model.cpp", "part.position * Vec3(1, -1, 1)", "part.position", "identities/transformations_test"),
    ("a dry item displaces water", "model.cpp", "part.role == Role::Dry || volume <= 0", "volume <= 0", "identities/transformations_test"),
    ("density wins over measured mass", "model.cpp", "body.skin.mass ? *body.skin.mass : *body.skin.density * whole.volume", "body.skin.density ? *body.skin.density * whole.volume : *body.skin.mass", "core/model_rules_test"),
    ("bore as wide as the tube", "model.cpp", "out.radius -= c.wall_thickness;", "", "core/model_rules_test"),
    ("salt water without its root term", "density.cpp", "c * std::sqrt(s)", "c", "outside/water_density_test"),
    ("fresh water at one temperature", "density.cpp", "return fresh ? freshDensity(t)", "return fresh ? freshDensity(15.0)", "outside/water_density_test"),
    ("strip's volume as of its mean section", "strip_cut.cpp", "(2 * (b0 * h0 + b1 * h1) + b0 * h1 + b1 * h0) / 6", "(b0 + b1) * (h0 + h1) / 4", "core/oracle_test|core/closed_forms_test"),
    ("shift of the waterplane's second moment forgotten", "moments.cpp", "addOuter(out.plane_second, shift, cut.plane_area);", "", "core/closed_forms_test|core/oracle_test"),
    ("pump flow does not fall with the voltage", "pump_run.cpp", "pump.free_flow * voltage / pump.rated_voltage - pump", "pump.free_flow + 0 * voltage - pump", "outside/ballast_values_test"),
    ("gauge pressure for absolute", "depth.cpp", "kAtmosphere / (kAtmosphere + out.pressure)", "kAtmosphere / std::max(kAtmosphere, out.pressure)", "outside/ballast_values_test"),
    ("foam loss with the wrong sign", "depth.cpp", "out.foam_loss -= c.density", "out.foam_loss += c.density", "core/ballast_test"),
    ("collapse by the long-tube formula", "strength.cpp", "return 2.42 * modulus", "return 2.60 * modulus", "outside/ballast_values_test"),
    ("hoop stress by the radius", "strength.cpp", "pressure * diameter / (2 * wall)", "pressure * diameter / (4 * wall)", "outside/ballast_values_test"),
    ("Antoine's constant with the wrong sign", "gas.cpp", "(temperature + gas.antoine_c)", "(temperature - gas.antoine_c)", "outside/ballast_values_test"),
    ("GZ not turned with the side", "righting_curve.cpp", "const double side = held.heel < 0 ? -1.0 : 1.0;", "const double side = 1.0;", "core/righting_curve_test"),
    ("GZ over weight instead of mass", "righting_curve.cpp", "side * turningOverHeel(held) / problem->mass", "side * turningOverHeel(held) / (problem->mass * kGravity)", "core/righting_curve_test"),
    ("a pitching boat passed as level", "dive_findings.cpp", "std::abs(s.trim) - limits.trim : 0.0", "s.trim - limits.trim : 0.0", "core/dive_test"),
    ("tank moved away from the balance", "dive_helps.cpp", "*wanted - (tank.aft_end + tank.fore_end) / 2", "(tank.aft_end + tank.fore_end) / 2 - *wanted", "core/dive_test"),
    ("lead raised instead of lowered", "dive_helps.cpp", "part.position.z -= by;", "part.position.z += by;", "core/dive_test"),
    ("a tank that reaches into the end cap accepted", "boat_check.cpp", "in.fore_dome > 0 ? 0.0 : in.cap_thickness", "0.0", "core/boat_check_test"),
]


def run(command, log):
    return subprocess.run(command, cwd=NATIVE, stdout=log, stderr=subprocess.STDOUT, check=False).returncode


def compileCommand(name):
    """The build's own command for a file of core/src, without its last words "-o OBJECT -c SOURCE"."""
    with open(os.path.join(NATIVE, "compile_commands.json"), encoding="utf-8") as file:
        command = next(c["command"] for c in json.load(file) if c["file"].endswith(f"/core/src/{name}"))
    words = shlex.split(command)
    return words[:words.index("-o")]


def linkCommand():
    """The build's own command for the test program, onto our library and into our folder."""
    told = subprocess.run(["ninja", "-t", "commands", PROGRAM], cwd=NATIVE, capture_output=True, text=True, check=True).stdout
    words = [w for w in shlex.split(told.strip().splitlines()[-1]) if w not in (":", "&&")]
    ours = {LIBRARY: os.path.join(OUT, "libpondtrim_core.a"), PROGRAM: os.path.join(OUT, "pondtrim_tests")}
    return [ours.get(w, w) for w in words]


def build(name, text, log):
    """The test program with this text in the place of that file of core/src."""
    source, made = os.path.join(OUT, name), os.path.join(OUT, name + ".o")  # ar goes by the name of the object
    with open(source, "w", encoding="utf-8") as file:
        file.write(text)
    library = os.path.join(OUT, "libpondtrim_core.a")
    shutil.copy2(os.path.join(NATIVE, LIBRARY), library)
    compiled = run(compileCommand(name) + ["-Wno-error", "-I", os.path.join(ROOT, "core", "src"), "-o", made, "-c", source], log)
    return compiled == 0 and run(["ar", "r", library, made], log) == 0 and run(linkCommand(), log) == 0


def testsFail(witnesses, log):
    """True when a test fails; a program that crashes or never ends has noticed too."""
    patterns = ",".join(f"*tests/{w}.cpp" for w in witnesses.split("|"))
    program = os.path.join(OUT, "pondtrim_tests")
    try:
        return run(["timeout", "600", program, "--no-colors", "--abort-after=1", f"--source-file={patterns}"], log) != 0
    finally:
        log.flush()


def soundText(name):
    with open(os.path.join(ROOT, "core", "src", name), encoding="utf-8") as file:
        return file.read()


def plant(fault, log):
    """What became of one fault: "noticed", "PASSED" or an error of this list."""
    _, name, there, instead, witnesses = fault
    sound = soundText(name)
    if sound.count(there) != 1:
        return f"ERROR: its place stands {sound.count(there)} times in {name}"
    if not build(name, sound.replace(there, instead), log):
        return "ERROR: does not compile"
    return "noticed" if testsFail(witnesses, log) else "PASSED"


def main():
    chosen = [f for f in FAULTS if not sys.argv[1:] or any(word in f[0] for word in sys.argv[1:])]
    os.makedirs(OUT, exist_ok=True)
    with open(os.path.join(OUT, "log.txt"), "w", encoding="utf-8") as log:
        if not build(FAULTS[0][1], soundText(FAULTS[0][1]), log):
            sys.exit("The sound core does not build: see build/mutations/log.txt.")
        if testsFail("|".join(sorted({w for f in chosen for w in f[4].split("|")})), log):
            sys.exit("The sound core fails its tests: see build/mutations/log.txt.")
        missed = 0
        for fault in chosen:
            start = time.monotonic()
            result = plant(fault, log)
            missed += result != "noticed"
            print(f"{result:8} {fault[0]}  ({fault[1]}; {fault[4]}; {time.monotonic() - start:.0f} s)", flush=True)
    print(f"{len(chosen) - missed} of {len(chosen)} faults noticed")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
