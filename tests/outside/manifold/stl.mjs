// Bodies that the general-purpose geometry library manifold-3d (npm) made, written as binary STL: loose triangles,
// some turned round, some there twice. Our command reads and mends them; volume and area are held against the library's.
// usage: stl.mjs PONDTRIM-PROGRAM FOLDER-TO-WRITE-IN
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Module from 'manifold-3d';

// A coordinate in single precision is 6e-8 of itself off, and the bodies are up to ten times longer than high.
const kTolerance = 1e-6;

const library = await Module();
library.setup();
const { Manifold } = library;

/** A hull of revolution along x, in millimetres. */
const hull = (length, radius, sides = 48) => {
  const outline = [[0, 0]];
  for (let i = 1; i < 60; ++i) outline.push([radius * Math.sqrt(4 * (i / 60) * (1 - i / 60)), length * i / 60]);
  outline.push([0, length]);
  return Manifold.revolve([outline], sides).rotate([0, 90, 0]);
};
const sail = Manifold.cylinder(70, 40, 30, 40).scale([1, 0.4, 1]).translate([500, 0, 30]);
const outer = hull(900, 55), inner = hull(880, 52).translate([10, 0, 0]);
const window = Manifold.cube([30, 200, 12], true).translate([300, 0, 10]);

const bodies = {
  'hull': outer,
  'hull with sail': outer.add(sail),
  'printed wall': outer.subtract(inner),
  'wall with limber holes': outer.subtract(inner).subtract(window),
  'two apart': outer.add(hull(200, 20).translate([0, 300, 0])),
  'far from the origin': outer.add(sail).translate([4000, -2500, 900]),
  'ball': Manifold.sphere(120, 96),
  'ring': Manifold.revolve([[...Array(40).keys()].map(i => [150 + 30 * Math.cos(i * Math.PI / 20), 30 * Math.sin(i * Math.PI / 20)])], 80),
};

function stlOf(body, spoil) {
  const { vertProperties: v, triVerts: t, numProp: n } = body.getMesh();
  const faces = [];
  for (let i = 0; i < t.length; i += 3) faces.push([t[i], t[i + 1], t[i + 2]]);
  if (spoil) for (let i = 0; i < faces.length; i += 7) faces[i] = [faces[i][1], faces[i][0], faces[i][2]];
  if (spoil) faces.push(...faces.filter((_, i) => i % 50 === 1));
  const bytes = Buffer.alloc(84 + 50 * faces.length);
  bytes.writeUInt32LE(faces.length, 80);
  faces.forEach((face, i) => face.forEach((corner, k) => {
    for (let j = 0; j < 3; ++j) bytes.writeFloatLE(v[n * corner + j], 84 + 50 * i + 12 + 12 * k + 4 * j);
  }));
  return bytes;
}

const [program, folder] = process.argv.slice(2);
mkdirSync(folder, { recursive: true });
let failed = 0, files = 0, worst = 0;
for (const [name, body] of Object.entries(bodies))
  for (const spoil of [false, true]) {
    const path = join(folder, `${name.replaceAll(' ', '-')}${spoil ? '-spoilt' : ''}.stl`);
    writeFileSync(path, stlOf(body, spoil));
    const ours = JSON.parse(execFileSync(program, ['mesh', path], { encoding: 'utf8' })), theirs = body.getProperties();
    const off = Math.max(Math.abs(ours.volume / theirs.volume - 1), Math.abs(ours.area / theirs.surfaceArea - 1));
    const mended = ours.repaired.triangles_turned > 0 && ours.repaired.duplicates_left_out > 0;
    ++files;
    worst = Math.max(worst, off);
    if (off <= kTolerance && ours.closed && ours.triangles === body.numTri() && mended === spoil) continue;
    ++failed;
    console.log(`FAIL ${path}: off by ${off}, closed ${ours.closed}, ${ours.triangles} of ${body.numTri()} triangles, ` +
      JSON.stringify(ours.repaired));
  }
console.log(`${files} STL files of ${Object.keys(bodies).length} bodies: volume and area within ${worst.toExponential(1)}; ${failed} failed`);
process.exit(failed ? 1 : 0);
