// Volume and centroid under a plane, ours against the general-purpose geometry library manifold-3d (npm): the
// library clips the body and hands back a new body, whose volume it measures itself.
// usage: compare.mjs PRINT-BODIES-PROGRAM BOAT-FILE...
import { execFileSync } from 'node:child_process';
import Module from 'manifold-3d';

// Meshes go into the library in single precision: 6e-8 of a coordinate, so some 1e-6 of a volume. A cylinder
// of 1024 sides lacks 6e-6 of its area.
const kTolerance = 2e-5, kSides = 1024;

const library = await Module();
library.setup();
const { Manifold } = library;

const bodyOf = ({ vertices, triangles, radius, length, centre }) => {
  if (radius) return Manifold.cylinder(length, radius, radius, kSides, true).rotate([0, 90, 0]).translate(centre);
  const mesh = new library.Mesh({ numProp: 3, vertProperties: Float32Array.from(vertices), triVerts: Uint32Array.from(triangles) });
  mesh.merge();
  return new Manifold(mesh);
};

/** Integral of p dV over the library's own output mesh, by tetrahedra to a point near by. */
const momentOf = body => {
  const { vertProperties: v, triVerts: t, numProp: n } = body.getMesh();
  const at = i => [v[n * i], v[n * i + 1], v[n * i + 2]];
  const base = t.length ? at(t[0]) : [0, 0, 0], sum = [0, 0, 0];
  for (let k = 0; k < t.length; k += 3) {
    const [a, b, c] = [0, 1, 2].map(i => at(t[k + i]).map((x, j) => x - base[j]));
    const tet = (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
    for (let j = 0; j < 3; ++j) sum[j] += tet * ((a[j] + b[j] + c[j]) / 4 + base[j]);
  }
  return sum;
};

const [program, ...boats] = process.argv.slice(2);
const lines = execFileSync(program, boats, { encoding: 'utf8', maxBuffer: 1 << 28 }).trim().split('\n');
let cuts = 0, failed = 0, worstVolume = 0, worstMoment = 0;
for (const line of lines) {
  const given = JSON.parse(line), body = bodyOf(given), whole = body.getProperties().volume, size = Math.cbrt(whole);
  const box = body.boundingBox(), reach = Math.max(size, ...box.min.map(Math.abs), ...box.max.map(Math.abs));
  for (const { up, level, volume, moment } of given.cuts) {
    const below = body.trimByPlane(up.map(x => -x), -level);  // keeps what lies along the normal
    const offVolume = Math.abs(below.getProperties().volume - volume) / whole;
    const theirs = momentOf(below);
    const offMoment = Math.max(...theirs.map((m, j) => Math.abs(m - moment[j]))) / (whole * reach);
    ++cuts;
    worstVolume = Math.max(worstVolume, offVolume);
    worstMoment = Math.max(worstMoment, offMoment);
    if (!(offVolume <= kTolerance && offMoment <= kTolerance) && ++failed <= 10)
      console.log(`FAIL ${given.name}: volume off by ${offVolume}, moment by ${offMoment} at ${up} ${level}`);
    below.delete();
  }
  body.delete();
}
if (lines.length < 50) { ++failed; console.log('too few bodies'); }
console.log(`${lines.length} bodies, ${cuts} cuts: volume within ${worstVolume.toExponential(1)} of the whole, first moment within ` +
  `${worstMoment.toExponential(1)}; ${failed} failed`);
process.exit(failed ? 1 : 0);
