// Measured, not asserted: a million triangles picked on the page. Time until they are ready, and until she is floated with
// all of them; the longest time between two frames meanwhile, and the program's memory. usage: PONDTRIM_SITE=... node tests/browser/measure_mesh.mjs [RINGS]
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { control, openPhone, settle, sleep, startBrowser, state, tap } from './phone.mjs';

const rings = Number(process.argv[2] ?? 1000), sides = rings / 2;
const point = (i, k) => {
  const t = i / rings, r = 55 * Math.sqrt(4 * t * (1 - t)), angle = 2 * Math.PI * (k % sides) / sides;
  return [900 * t, r * Math.sin(angle), r * Math.cos(angle)];
};
const count = (2 * rings - 2) * sides, bytes = Buffer.alloc(84 + 50 * count);
bytes.writeUInt32LE(count, 80);
let at = 84;
const face = corners => {
  corners.forEach(([x, y, z], k) => {
    bytes.writeFloatLE(x, at + 12 + 12 * k);
    bytes.writeFloatLE(y, at + 16 + 12 * k);
    bytes.writeFloatLE(z, at + 20 + 12 * k);
  });
  at += 50;
};
for (let i = 0; i < rings; ++i)
  for (let k = 0; k < sides; ++k) {
    if (i + 1 < rings) face([point(i, k), point(i + 1, k), point(i + 1, k + 1)]);
    if (i > 0) face([point(i, k), point(i + 1, k + 1), point(i, k + 1)]);
  }
const folder = mkdtempSync(join(tmpdir(), 'mesh-')), path = join(folder, 'million.stl');
writeFileSync(path, bytes);

const started = await startBrowser();
try {
  const phone = await openPhone(started, { ratio: 3 });
  await tap(phone, 'section.hull');
  const [chooser] = await Promise.all([phone.page.waitForEvent('filechooser'), tap(phone, 'add.mesh')]);
  await phone.page.evaluate(() => {
    globalThis.gaps = [];
    let last = performance.now();
    const look = now => { gaps.push(now - last); last = now; requestAnimationFrame(look); };
    requestAnimationFrame(look);
  });
  const from = Date.now();
  await chooser.setFiles(path);
  const stages = {};
  for (let words = ''; ; await sleep(20)) {
    const { controls, notice } = await state(phone);
    if (notice) throw new Error(notice);
    if (controls.some(c => c.name === 'mesh.use')) break;
    words = controls.find(c => c.name === 'mesh.progress')?.value.split(' ')[0] ?? words;
    stages[words] = Date.now() - from;
  }
  const ready = Date.now() - from, gaps = await phone.page.evaluate(() => gaps);
  console.log(`${count} triangles, ${(bytes.length / 1e6).toFixed(0)} MB: ready after ${ready} ms; ends of the stages ${JSON.stringify(stages)}`);
  console.log(`longest times between frames: ${gaps.sort((a, b) => b - a).slice(0, 8).map(g => g.toFixed(0)).join(', ')} ms`);
  console.log((await control(phone, 'mesh.found')).value);
  console.log(`memory of the program: ${await phone.page.evaluate('HEAPU8.length') >> 20} MiB`);
  for (const wall of ['skin', 'solid']) {
    await tap(phone, `mesh.wall.${wall}`);
    await phone.page.evaluate(() => { gaps.length = 0; });
    const begun = Date.now();
    await phone.page.evaluate(() => document.querySelector('#mirror [data-name="mesh.try-all"]').click());
    while (!(await state(phone)).controls.some(c => c.name === 'mesh.tried-all')) await sleep(20);
    const longest = Math.max(...await phone.page.evaluate(() => gaps));
    console.log(`as a ${wall} floated with all: ${Date.now() - begun} ms, longest time between frames ${longest.toFixed(0)} ms, ` +
      `memory ${await phone.page.evaluate('HEAPU8.length') >> 20} MiB`);
    console.log((await control(phone, 'mesh.tried-all')).value);
  }
  await tap(phone, 'mesh.wall.skin');
  const took = await phone.page.evaluate(() => {
    const from = performance.now();
    document.querySelector('#mirror [data-name="mesh.use"]').click();
    return performance.now() - from;
  });
  console.log(`put into the boat and solved: ${took.toFixed(0)} ms`);
  await settle(phone);
} finally {
  await started.close();
  rmSync(folder, { recursive: true });
}
