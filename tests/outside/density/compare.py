#!/usr/bin/python3
"""Water density against two libraries of Debian that share no formula with ours: usage compare.py PONDTRIM BOAT-FILE

python3-iapws: IAPWS-95 (Wagner and Pruss 2002) for fresh water, against Tanaka 2001. python3-gsw: TEOS-10 (IOC, SCOR and
IAPSO 2010; IAPWS-08 for the salt) for the sea, against EOS-80. Every temperature and salinity that the boat file takes, in
steps, is asked of `pondtrim float`, at one atmosphere. Practical salinity S is Reference Salinity S_R = 35.16504/35 S there
(Millero et al. 2008), which is Absolute Salinity for the sea's own composition.
"""
import json
import os
import subprocess
import sys
import tempfile

import gsw
from iapws import IAPWS95

ATMOSPHERE_MPA = 0.101325
# Tanaka 2001 and IAPWS-95 each claim about 1e-6 of the density (from memory): together 2e-6.
FRESH_TOLERANCE = 0.002  # kg/m3
# EOS-80 states a standard error of 3.6e-3 kg/m3 (Millero and Poisson 1981, Deep-Sea Res. 28A, 625-629, abstract): four of them.
# On 8 kg of boat that is 0.12 g.
SALT_TOLERANCE = 0.0144  # kg/m3
COLDEST_SALT, WARMEST = -2, 40  # degC; what the boat file takes
SALINITIES = (0.01, 1, 5, 10, 15, 20, 25, 30, 35, 40, 42)


def ours(program, boat, scratch, temperature, salinity):
    boat["water"] = {"temperature_degC": temperature, "salinity_g_per_kg": salinity}
    with open(scratch, "w", encoding="utf-8") as file:
        json.dump(boat, file)
    told = subprocess.run([program, "float", scratch], check=True, capture_output=True, text=True).stdout
    return json.loads(told)["condition"]["water_density_kg_per_m3"]


def main():
    program, path = sys.argv[1:3]
    with open(path, encoding="utf-8") as file:
        boat = json.load(file)
    worst, count, failed = {"fresh": 0.0, "salt": 0.0}, 0, 0
    with tempfile.TemporaryDirectory() as folder:
        def compare(kind, temperature, salinity, theirs, tolerance):
            nonlocal count, failed
            got = ours(program, boat, os.path.join(folder, "boat.json"), temperature, salinity)
            off = abs(got - theirs)
            worst[kind] = max(worst[kind], off)
            count += 1
            if not off <= tolerance:
                failed += 1
                print(f"FAIL {temperature} degC, salinity {salinity}: ours {got:.5f}, theirs {theirs:.5f} kg/m3")

        for t in range(0, WARMEST + 1):
            compare("fresh", t, 0, IAPWS95(T=t + 273.15, P=ATMOSPHERE_MPA).rho, FRESH_TOLERANCE)
        for s in SALINITIES:
            for t in range(COLDEST_SALT, WARMEST + 1, 3):
                theirs = float(gsw.rho_t_exact(35.16504 / 35 * s, t, 0))
                compare("salt", t, s, theirs, SALT_TOLERANCE)
    print(f"{count} densities: fresh water within {worst['fresh']:.4f} kg/m3 of IAPWS-95, salt water within "
          f"{worst['salt']:.4f} kg/m3 of TEOS-10; {failed} failed")
    return 1 if failed or count < 150 else 0


if __name__ == "__main__":
    sys.exit(main())
