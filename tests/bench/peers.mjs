// What a cut of a solid of 20k triangles by a plane costs, ours as WASM and with two general-purpose geometry libraries (npm),
// turn about in the same run: the same torpedo, the same planes. The libraries make a new body of what lies under the plane, we
// only add it up; that is the point. First every way of cutting is held against a plain loop that clips the same triangles: a
// disagreement ends the script with 1. How fast anything is, is not asserted.
// usage: peers.mjs KERNELS-BENCH-SCRIPT
import { execFileSync } from 'node:child_process';
import { csgCuts } from './peers/csg.mjs';
import { manifoldCuts } from './peers/manifold.mjs';
import { clipped, kOutputs, outputsOf, torpedo } from './peers/outputs.mjs';

// Parts of the largest value over all planes. Ours and the loop both work in double precision, and differ by the order of sums.
const kOurTolerance = 1e-11, kVolumeTolerance = 1e-5;
const kRounds = 5, kPlanes = 16;   // planes in a measurement: the first of ours, which come in no order
const script = process.argv[2];

const ourOutput = word => execFileSync(process.execPath, [script, word], { encoding: 'utf8' });
const cases = ourOutput('planes').trim().split('\n').map(line => {
  const numbers = line.trim().split(' ').map(Number);
  return { plane: { up: numbers.slice(0, 3), level: numbers[3] }, outputs: numbers.slice(4) };
});
const planes = cases.map(c => c.plane), body = torpedo(20000);
const expected = planes.map(plane => outputsOf(clipped(body, plane), plane));
const largest = Array.from({ length: kOutputs }, (_, j) => Math.max(...expected.map(e => Math.abs(e[j]))));

/** The most by which an output is off over all planes, in parts of the largest; of each plane's outputs the first `count`. */
const worst = (all, count) => Math.max(...all.flatMap((outputs, i) =>
  Array.from({ length: count }, (_, j) => Math.abs(outputs[j] - expected[i][j]) / largest[j])));

/** Whether outputs, some or all of each plane's, agree with the loop's. */
function agrees(name, all, tolerance) {
  const count = all[0].length, volume = worst(all, 1), any = worst(all, count);
  const good = volume <= Math.min(tolerance, kVolumeTolerance) && any <= tolerance;   // NaN is not good
  console.log(`${good ? 'ok  ' : 'FAIL'} ${name}: ${all.length} cuts, volume within ${volume.toExponential(1)} of the loop's` +
    (count > 1 ? `, ${count} outputs within ${any.toExponential(1)}` : ''));
  return good;
}

/** Milliseconds a cut, by the clock or by the processor, whichever is less: others at work on the machine add to the first, the
 * engine's own helpers (compiler, memory) to the second. */
function measured(cut) {
  const clock = performance.now(), processor = process.cpuUsage();
  for (const plane of planes.slice(0, kPlanes)) used += cut(plane).reduce((a, b) => a + b);
  return Math.min(performance.now() - clock, process.cpuUsage(processor).user / 1000) / kPlanes;
}

/** As kernels_bench measures it, user time of the processor, all planes turn about [ms]. */
function ours() {
  const [, triangles, us] = ourOutput('cuts').match(/mesh of +(19\d{3}|20\d{3}) triangles:.*cut as solid +([\d.]+) us/) ?? [];
  if (Number(triangles) !== body.triangles.length / 3) throw new Error('kernels_bench has no such solid');
  return Number(us) / 1000;
}

// In single precision a corner is off by 3e-8 m at most, 6e-7 of the radius. manifold-3d 2.5.1 says of itself (`precision`) that it
// may move and merge corners by 1e-5 of the body's length, which is 2e-4 of the radius; volumes have to be better.
const peers = [
  { library: 'manifold-3d', tolerance: 1e-4, cuts: await manifoldCuts(body) },
  { library: 'three-bvh-csg', tolerance: 1e-6, cuts: csgCuts(body) },
];
const ways = peers.flatMap(({ library, tolerance, cuts }) =>
  Object.entries(cuts).map(([way, cut]) => ({ name: `${library}, ${way}`, tolerance, cut, times: [] })));
let used = 0;
const good = [agrees('ours, with all outputs', cases.map(c => c.outputs), kOurTolerance),
  ...ways.map(({ name, cut, tolerance }) => agrees(name, planes.map(cut), tolerance))];
if (!good.every(Boolean)) process.exit(1);

const own = { name: 'ours, with all outputs', times: [] };
for (let round = 0; round < kRounds; ++round) {
  own.times.push(ours());
  for (const way of ways) way.times.push(measured(way.cut));
}
const least = way => Math.min(...way.times), middle = way => way.times.toSorted((a, b) => a - b)[way.times.length >> 1];
console.log(`A cut of ${body.triangles.length / 3} triangles, ${kRounds} measurements: the middle one and the least; so many times ours`);
for (const way of [own, ...ways])
  console.log(`  ${way.name.padEnd(46)} ${middle(way).toFixed(4).padStart(9)} ms ${least(way).toFixed(4).padStart(9)} ms ` +
    `${(middle(way) / middle(own)).toFixed(0).padStart(6)} ${(least(way) / least(own)).toFixed(0).padStart(6)}`);
console.log(`(sum of all results: ${used})`);
