// The native build against the WASM build: every number of many reports, to 1e-9 of the boat's own size.
// usage: compare.mjs NATIVE-PROGRAM WASM-PROGRAM.js BOAT-FILE...
import { execFileSync } from 'node:child_process';

const kTolerance = 1e-9;
const [native, wasm, ...boats] = process.argv.slice(2);
const run = (program, words) => execFileSync(program, words, { encoding: 'utf8', maxBuffer: 1 << 28 }).trim().split('\n');
const ours = run(native, boats), theirs = run(process.execPath, [wasm, ...boats]);

let title = '', numbers = 0, reports = 0, worst = 0, worstAt = '', failed = 0;
const fail = text => { if (++failed <= 20) console.log(`FAIL ${title}: ${text}`); };
if (ours.length !== theirs.length) fail(`${ours.length} lines against ${theirs.length}`);
for (let i = 0; i < Math.min(ours.length, theirs.length); ++i) {
  if (ours[i].startsWith('#')) {
    title = ours[i].slice(2);
    ++reports;
    if (ours[i] !== theirs[i]) fail(`the other build says: ${theirs[i]}`);
    continue;
  }
  const [a, b] = [ours[i], theirs[i]].map(line => Number(line.slice(line.lastIndexOf(' '))));
  // Angles in radians, lengths in metres, masses in kilograms: a boat measures about one of each, so that a
  // number near 0 (the heel of an upright boat) is held to the same absolute size.
  const off = Math.abs(a - b) / Math.max(1, Math.abs(a));
  ++numbers;
  if (off > worst || Number.isNaN(off)) { worst = off; worstAt = `${title}: ${ours[i]} against ${theirs[i]}`; }
  if (!(off <= kTolerance)) fail(`${ours[i]} against ${theirs[i]}`);
}
if (numbers < 1000) fail(`only ${numbers} numbers`);
console.log(`${reports} reports, ${numbers} numbers, largest difference ${worst.toExponential(1)} (${worstAt || 'none'})`);
process.exit(failed ? 1 : 0);
