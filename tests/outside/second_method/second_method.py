#!/usr/bin/python3
"""Rest positions by a second method that shares no code with the core: second_method.py CHECKOUT PONDTRIM [--quick]

Every body of a boat file becomes a cloud of small volumes (quadrature over its sections); the energy of weights,
displaced water and tank water at its own level is summed over the cloud and minimised over draft, trim and heel by
SciPy's Nelder-Mead. The answers are compared with `pondtrim float`. Needs python3-scipy of Debian. --quick takes one fill
of each preset instead of three.
"""
import concurrent.futures
import glob
import json
import math
import os
import subprocess
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # a case has a process of its own
import numpy as np
from scipy.optimize import brentq, minimize

AROUND, RINGS, ALONG = 64, 12, 160  # volumes around, outwards and along a cylinder
GOLDEN = (math.sqrt(5) - 1) / 2
DRAFT_TOLERANCE_MM = 0.25  # the size of a small volume is 1 to 3 mm; a builder's ruler reads 0.5 mm
ANGLE_TOLERANCE_DEG = 0.10  # dived, a boat of 7 mm BG turns by this for 0.03 mL in the wrong place


def grid(*axes):
    return [a.ravel() for a in np.meshgrid(*axes, indexing="ij")]


def middles(n, low=0.0, high=1.0):
    return low + (high - low) * (np.arange(n) + 0.5) / n


class Cloud:
    """Points and the volume at each [m, m^3]."""

    def __init__(self):
        self.points, self.volumes = [], []

    def add(self, points, volumes):
        self.points.append(points)
        self.volumes.append(volumes)

    def done(self):
        return np.concatenate(self.points), np.concatenate(self.volumes)


def disc_stack(centres, thicknesses, radii, rings=RINGS):
    """Discs across x, each in rings of equal area; each ring's points at its area's mean radius."""
    i, r, angle = np.meshgrid(np.arange(len(centres)), np.arange(rings + 1), middles(AROUND, 0, 2 * math.pi), indexing="ij")
    # Each disc's rings shifted, the first and last in part only, and turned, so that a level water meets no rows of points.
    shift = np.modf(math.sqrt(2) * i)[0]
    inner, outer = (np.sqrt(np.clip((r + k - shift) / rings, 0, 1)) for k in (0, 1))
    area = outer**2 - inner**2
    mean = 2 / 3 * (outer**3 - inner**3) / np.maximum(area, 1e-300)
    angle = angle + 2 * math.pi * GOLDEN * (i + 7 * r)
    points = np.stack([centres[i], radii[i] * mean * np.cos(angle), radii[i] * mean * np.sin(angle)], axis=-1)
    volumes = math.pi * radii[i] ** 2 * area / AROUND * thicknesses[i]
    kept = area > 1e-12
    return points[kept], volumes[kept]


def cylinder(length, radius, fore, aft):
    """Axis along x, the straight part centred at 0; half-ellipsoid domes beyond its ends."""
    parts = [disc_stack(middles(ALONG, -length / 2, length / 2), np.full(ALONG, length / ALONG), np.full(ALONG, radius))]
    for dome, way in ((fore, 1), (aft, -1)):
        if dome <= 0:
            continue
        n = 60
        t = middles(n)
        discs = disc_stack(way * (length / 2 + dome * t), np.full(n, dome / n), radius * np.sqrt(1 - t**2 - 1 / (12 * n * n)))
        parts.append(discs)
    return np.concatenate([p for p, _ in parts]), np.concatenate([v for _, v in parts])


def strip(length, aft_b, aft_h, fore_b, fore_h):
    n, m = 60, 10
    i, j, k = grid(np.arange(n), np.arange(m), np.arange(m))
    shift = np.modf(GOLDEN * (i * m + j))[0]
    s, y, z = (i + 0.5) / n, (j + np.modf(GOLDEN * i)[0]) / m - 0.5, (k + shift) / m - 0.5
    b, h = aft_b + (fore_b - aft_b) * s, aft_h + (fore_h - aft_h) * s
    return np.stack([(s - 0.5) * length, y * b, z * h], axis=1), length / n * b * h / m**2


def patches(corners, thickness):
    """Corners of patches on a surface, in order around each, to their middles and volumes."""
    a, b, c, d = corners
    area = np.linalg.norm(np.cross(c - a, d - b), axis=-1) / 2
    return ((a + b + c + d) / 4).reshape(-1, 3), (area * thickness).ravel()


def spindle(f, thickness):
    around, rings = 384, 100
    length, nose, tail = f["length_mm"] / 1e3, f["nose_length_mm"] / 1e3, f["tail_length_mm"] / 1e3
    half_b, half_h = f["breadth_mm"] / 2e3, f["height_mm"] / 2e3
    power = 2 / f.get("section_power", 2)
    t = np.sin(np.linspace(0, math.pi / 2, rings + 1))  # 0 at the shoulder, 1 at the tip
    tail_scale = np.maximum(0, 1 - t ** f.get("tail_power", 2)) ** (1 / f.get("tail_root", 1))
    nose_scale = np.maximum(0, 1 - t ** f.get("nose_power", 2)) ** (1 / f.get("nose_root", 2))
    middle = np.linspace(tail, length - nose, rings + 1)[1:-1]
    x = np.concatenate([(tail * (1 - t))[::-1], middle, length - nose * (1 - t)])
    scale = np.concatenate([tail_scale[::-1], np.ones(rings - 1), nose_scale])
    lift = np.repeat([f.get("tail_lift", 0), 0, f.get("nose_lift", 0)], [rings + 1, rings - 1, rings + 1])
    x, scale, lift = (v[:, None] for v in (x, scale, lift))
    turned = GOLDEN * np.arange(len(x) - 1)[:, None]  # each ring, so that a level water meets no rows of patches

    def at(ring, beside):
        a = 2 * math.pi * (np.arange(around)[None, :] + turned + beside) / around
        across = np.sign(np.cos(a)) * np.abs(np.cos(a)) ** power
        upward = np.sign(np.sin(a)) * np.abs(np.sin(a)) ** power
        s = scale[ring]
        return np.stack(np.broadcast_arrays(x[ring], half_b * s * across, half_h * (s * upward + lift[ring] * (1 - s))), axis=2)

    aft, fore = slice(None, -1), slice(1, None)
    return patches((at(aft, 0), at(fore, 0), at(fore, 1), at(aft, 1)), thickness)


def sail(f, thickness):
    around, rows = 256, 80
    length, shoulder, top = f["length_mm"] / 1e3, f.get("shoulder", 0.35), f.get("top_scale", 1)
    rake, height = f.get("rake_mm", 0) / 1e3, f["height_mm"] / 1e3
    fore, aft = shoulder * length, (1 - shoulder) * length
    middle = length / 2 - fore  # of the broadest station; any point of the top's plane inside its outline

    def outline(j):
        a = 2 * math.pi * j / around
        return middle + np.where(np.cos(a) > 0, fore, aft) * np.cos(a), f["breadth_mm"] / 2e3 * np.sin(a)

    column = np.arange(around)[None, :]
    row = np.arange(rows + 2)[:, None] - np.modf(GOLDEN * column)[0]  # each column shifted, as the rings of a spindle
    edges = np.clip(row / rows, 0, 1)

    def side(s, j):
        along, across = outline(j)
        k = 1 + (top - 1) * s
        return np.stack(np.broadcast_arrays(k * along - rake * s, k * across, height * s), axis=2)

    def cap(r, j):
        along, across = outline(j)
        return np.stack(np.broadcast_arrays(top * (middle + r * (along - middle)) - rake, top * r * across, height + 0 * r), axis=2)

    low, high = edges[:-1], edges[1:]
    p, v = patches((side(low, column), side(low, column + 1), side(high, column + 1), side(high, column)), thickness)
    r = np.linspace(0, 1, 41)[:, None]
    q, w = patches((cap(r[:-1], column), cap(r[1:], column), cap(r[1:], column + 1), cap(r[:-1], column + 1)), thickness)
    return np.concatenate([p, q]), np.concatenate([v, w])


AXES = {"x": [0, 1, 2], "y": [2, 0, 1], "z": [1, 2, 0]}  # where x, y, z of the result come from


def shape_cloud(s):
    kind = s["kind"]
    if kind == "box":
        x, y, z = (v / 1e3 for v in s["size_mm"])
        return strip(x, y, z, y, z)
    if kind == "cylinder":
        points, volumes = cylinder(s["length_mm"] / 1e3, s["diameter_mm"] / 2e3, s.get("fore_dome_mm", 0) / 1e3,
                                   s.get("aft_dome_mm", 0) / 1e3)
        return points[:, AXES[s.get("axis", "x")]], volumes
    if kind == "strip":
        return strip(*(s[k + "_mm"] / 1e3 for k in ("length", "aft_breadth", "aft_height", "fore_breadth", "fore_height")))
    return None


class Boat:
    def __init__(self, text):
        self.boat = json.loads(text)
        self.cloud, self.weights = Cloud(), []
        for skin in self.boat.get("skins", []):
            self.add_skin(skin)
        for c in self.boat.get("cylinders", []):
            self.add_cylinder(c)
        for part in self.boat.get("parts", []):
            self.add_part(part)
        self.points, self.volumes = self.cloud.done()
        self.mass = sum(m for m, _ in self.weights)
        self.moment = sum(m * p for m, p in self.weights)
        self.add_tank()

    def add_skin(self, skin):
        make = spindle if skin["form"]["kind"] == "spindle" else sail
        points, volumes = make(skin["form"], skin["thickness_mm"] / 1e3)
        points = points + np.array(skin["position_mm"]) / 1e3
        mass = skin["mass_g"] / 1e3 if "mass_g" in skin else skin["density_kg_per_m3"] * volumes.sum()
        self.weights.append((mass, (points * volumes[:, None]).sum(0) / volumes.sum()))
        self.cloud.add(points, volumes)

    def add_cylinder(self, c):
        length, radius, wall, cap = (c[k] / 1e3 for k in ("length_mm", "diameter_mm", "wall_thickness_mm", "cap_thickness_mm"))
        radius /= 2
        fore, aft = c.get("fore_dome_mm", 0) / 1e3, c.get("aft_dome_mm", 0) / 1e3
        points, volumes = cylinder(length, radius, fore, aft)
        flat_fore, flat_aft = (0 if fore else cap), (0 if aft else cap)
        inner, hole = cylinder(length - flat_fore - flat_aft, radius - wall, max(0, fore - cap), max(0, aft - cap))
        inner = inner + np.array([(flat_aft - flat_fore) / 2, 0, 0])
        at = np.array(c["position_mm"]) / 1e3 + np.array([length / 2, 0, 0])
        shell = volumes.sum() - hole.sum()
        middle = ((points * volumes[:, None]).sum(0) - (inner * hole[:, None]).sum(0)) / shell
        self.weights.append((c["mass_g"] / 1e3 if "mass_g" in c else c["density_kg_per_m3"] * shell, middle + at))
        self.cloud.add(points + at, volumes)

    def add_part(self, part):
        for side in (1, -1) if part.get("mirrored") else (1,):
            at = np.array(part["position_mm"]) / 1e3 * np.array([1, side, 1])
            made, role = shape_cloud(part["shape"]), part["role"]
            centre, volume = at, 0.0
            if made is not None:
                points, volumes = made
                whole = volumes.sum()
                centre = at + (points * volumes[:, None]).sum(0) / whole
                volume = whole
                if "volume_mL" in part:
                    volume = part["volume_mL"] / 1e6
                elif role == "lead" and "mass_g" in part and "density_kg_per_m3" in part:
                    volume = part["mass_g"] / 1e3 / part["density_kg_per_m3"]
                if role != "dry" and volume > 0:
                    self.cloud.add(points + at, volumes * (volume / whole))
            if role != "trapped air":
                mass = part["mass_g"] / 1e3 if "mass_g" in part else part["density_kg_per_m3"] * volume
                self.weights.append((mass, centre))

    def add_tank(self):
        self.cells, self.capacity = [], 0.0
        tank = self.boat.get("tank")
        if not tank:
            return
        home = next(c for c in self.boat["cylinders"] if c["name"] == tank["cylinder"])
        radius = (home["diameter_mm"] / 2 - home["wall_thickness_mm"]) / 1e3
        ends = [x / 1e3 for x in [tank["aft_end_mm"], *tank.get("bulkheads_mm", []), tank["fore_end_mm"]]]
        geometric = math.pi * radius**2 * (ends[-1] - ends[0])
        self.capacity = tank["capacity_mL"] / 1e6 if "capacity_mL" in tank else geometric
        for a, b in zip(ends, ends[1:]):
            points, volumes = cylinder(b - a, radius, 0, 0)
            at = np.array([(a + b) / 2, home["position_mm"][1] / 1e3, home["position_mm"][2] / 1e3])
            self.cells.append((points + at, volumes * (self.capacity / geometric)))

    def energy(self, c, trim, heel, density, fill):
        """Over g, heights from the pond's surface [kg m]."""
        u = np.array([math.sin(trim), math.cos(trim) * math.sin(heel), math.cos(trim) * math.cos(heel)])
        depth = c - self.points @ u
        total = u @ self.moment - self.mass * c + density * (self.volumes * np.maximum(depth, 0)).sum()
        for points, volumes in self.cells:
            share = fill / self.capacity
            if share <= 0:
                continue
            height = points @ u
            order = np.argsort(height)
            filled = np.cumsum(volumes[order])
            left = share * volumes.sum() - np.concatenate([[0.0], filled[:-1]])
            wet = np.clip(left, 0, volumes[order])
            total += density * (wet @ (height[order] - c))
        return total

    def rest(self, density, fill):
        mass = self.mass + density * fill
        up = lambda c: density * self.volumes[self.points[:, 2] < c].sum() - mass
        start = brentq(up, -1, 2)
        scale = np.array([0.002, 0.02, 0.01])
        run = lambda q: self.energy(start + q[0] * scale[0], q[1] * scale[1], q[2] * scale[2], density, fill)
        q = np.array([0, 1.0, 1.0])  # not level, so that a balance on a ridge is left
        for _ in range(3):  # a fresh simplex each time: Nelder-Mead shrinks too early in a long valley
            simplex = q + np.vstack([np.zeros(3), np.eye(3)])
            found = minimize(run, q, method="Nelder-Mead",
                             options={"initial_simplex": simplex, "xatol": 1e-3, "fatol": 1e-13, "maxfev": 200})
            q = found.x
        return start + q[0] * scale[0], q[1] * scale[1], q[2] * scale[2]


def compare(case):
    """Whether the two agree, and a line that says how well."""
    program, path, share = case
    with open(path, encoding="utf-8") as file:
        boat = Boat(file.read())
    fill = ["--fill-mL", repr(share * boat.capacity * 1e6)] if boat.capacity else []
    told = json.loads(subprocess.run([program, "float", path, *fill], check=True, capture_output=True, text=True).stdout)
    density = told["condition"]["water_density_kg_per_m3"]
    c, trim, heel = boat.rest(density, share * boat.capacity)
    marks = boat.boat["marks"]
    cosine = math.cos(trim) * math.cos(heel)
    worst_mm = 0.0
    trims = told["trim_deg"]
    # A boat that is the same fore and aft may lie either way.
    side = -1 if abs(trims) > 5 and trims * trim < 0 else 1
    if side == 1:
        for name, x in (("draft_bow_mm", marks["bow_x_mm"]), ("draft_stern_mm", marks["stern_x_mm"])):
            if told.get(name) is None:
                continue
            worst_mm = max(worst_mm, abs((c * 1e3 - math.sin(trim) * x) / cosine - told[name]))
    turned = math.hypot(side * math.degrees(trim) - trims, abs(math.degrees(heel)) - abs(told["heel_deg"]))
    good = worst_mm <= DRAFT_TOLERANCE_MM and turned <= ANGLE_TOLERANCE_DEG
    return good, (f"{'ok  ' if good else 'FAIL'} {boat.boat['name']:22} {100 * share:3.0f} %  drafts within {worst_mm:.3f} mm, "
                  f"attitude within {turned:.3f} deg (trim {trims:+.2f} deg)")


def main():
    checkout, program = sys.argv[1:3]
    quick = sys.argv[3:] == ["--quick"]
    fills = (0, 0.5, 1)
    presets = sorted(glob.glob(checkout + "/presets/boats/*.boat.json"))
    cases = [(program, p, share) for i, p in enumerate(presets) for share in ([fills[i % 3]] if quick else fills)]
    long_tank = checkout + "/tests/outside/second_method/long-tank.boat.json"
    cases += [(program, long_tank, share) for share in ([0.8] if quick else (0.5, 0.8))]
    agreed = 0
    with concurrent.futures.ProcessPoolExecutor() as pool:
        for good, line in pool.map(compare, cases):
            agreed += good
            print(line, flush=True)
    print(f"{agreed} of {len(cases)} rest positions agree")
    return 0 if len(cases) >= 7 and agreed == len(cases) else 1


if __name__ == "__main__":
    sys.exit(main())
