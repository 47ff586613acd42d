// Measured, not asserted: how long the page takes to its first picture, and what a frame costs with and without WebGL.
// usage: PONDTRIM_SITE=... node tests/browser/measure_page.mjs
import { openPhone, settle, sleep, startBrowser, state, tap } from './phone.mjs';

const started = await startBrowser();
const middle = list => list.sort((a, b) => a - b)[list.length >> 1];

/** From asking for the page to its first picture, which is the one that stays (app.test.mjs), drawn by the graphics process
 * too, with a fresh browser profile each time [ms]. */
async function firstPicture() {
  const context = await started.browser.newContext({ viewport: { width: 390, height: 844 }, deviceScaleFactor: 3, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.addInitScript(() => {
    const usual = globalThis.requestAnimationFrame;
    globalThis.requestAnimationFrame = work => usual(now => {
      work(now);
      if (globalThis.firstPicture || !globalThis.pondtrimState?.().ready) return;
      document.getElementById('canvas').getContext('webgl2').readPixels(0, 0, 1, 1, 0x1908, 0x1401, new Uint8Array(4));   // waits
      globalThis.firstPicture = performance.now();
    });
  });
  await page.goto(started.url, { waitUntil: 'commit' });
  let took = null;
  while (!took) {
    await sleep(100);   // asking takes time from the page
    took = await page.evaluate('globalThis.firstPicture').catch(() => null);
  }
  await context.close();
  return took;
}

try {
  const times = [];
  for (let i = 0; i < 7; ++i) times.push(await firstPicture());
  console.log(`first picture after ${middle(times).toFixed(0)} ms (${times[0].toFixed(0)} to ${times.at(-1).toFixed(0)}, ${times.length} runs)`);

  const phone = await openPhone(started, { ratio: 3 });
  await tap(phone, 'section.weights');
  const row = (await state(phone)).controls.find(c => c.role === 'slider' && c.label === 'battery').name;
  // One edit a frame, as a finger on a slider makes them; the script's time of each frame is the app's, GL calls included.
  const run = (name, count) => phone.page.evaluate(async ([name, count]) => {
    const spent = [], usual = globalThis.requestAnimationFrame;
    globalThis.requestAnimationFrame = work => usual(now => {
      const from = performance.now();
      work(now);
      spent.push(performance.now() - from);
    });
    for (let i = 0; i < count; ++i) {
      const slider = document.querySelector(`#mirror [data-name="${name}"]`);
      slider.value = String(Number(slider.min) + (Number(slider.max) - Number(slider.min)) * (0.4 + 0.2 * (i % 50) / 50));
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise(done => usual(done));
    }
    globalThis.requestAnimationFrame = usual;
    return spent;
  }, [name, count]);
  // With the calls that draw, upload or set something made to do nothing, what is left of a frame is the app's own.
  const muteGl = mute => phone.page.evaluate(mute => {
    const kinds = WebGL2RenderingContext.prototype, silent = /^(draw|buffer|bind|uniform|vertex|enable|disable|blend|clear|viewport|scissor|depth|cull|use)/;
    globalThis.usualGl ??= Object.entries(Object.getOwnPropertyDescriptors(kinds)).filter(([name, d]) => silent.test(name) && typeof d.value === 'function');
    for (const [name, { value }] of usualGl) kinds[name] = mute ? () => {} : value;
  }, mute);
  const before = (await state(phone)).revision;
  for (const rate of [1, 4]) for (const gl of ['with', 'without']) {
    await phone.devtools.send('Emulation.setCPUThrottlingRate', { rate });
    await muteGl(gl === 'without');
    const spent = await run(row, 200);
    await muteGl(false);
    console.log(`frame with an edit, processor ${rate === 1 ? 'as it is' : '4 times slower'}, ${gl} WebGL: ${middle(spent).toFixed(2)} ms in the ` +
      `middle, ${spent[Math.floor(0.95 * spent.length)].toFixed(2)} at 95 %, ${spent.length} frames`);
  }
  await phone.devtools.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  await settle(phone);
  console.log(`edits made: ${(await state(phone)).revision - before}`);
} finally {
  await started.close();
}
