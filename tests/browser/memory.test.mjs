// An hour at the pond must not fill the phone.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser);
const kEdits = 5000, kMiB = 1048576;

async function heap(phone) {
  await phone.devtools.send('HeapProfiler.collectGarbage');
  const { usedSize } = await phone.devtools.send('Runtime.getHeapUsage');
  return { program: await phone.page.evaluate('HEAPU8.length') / kMiB, page: usedSize / kMiB };
}

/** Each edit is carried out at once; every tenth is drawn, as faster ones are by a finger. */
const edit = (phone, name, count) => phone.page.evaluate(async ([name, count]) => {
  for (let i = 0; i < count; ++i) {
    const slider = document.querySelector(`#mirror [data-name="${name}"]`);
    slider.value = String(Number(slider.min) + (Number(slider.max) - Number(slider.min)) * (0.4 + 0.2 * (i % 50) / 50));
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    if (i % 10 === 0) await new Promise(done => requestAnimationFrame(done));
  }
}, [name, count]);

onPhone('memory stays flat over 5,000 edits', async (phone, t) => {
  await hand.tap(phone, 'section.weights');
  const { name } = (await hand.state(phone)).controls.find(c => c.role === 'slider' && c.label === 'battery');
  await edit(phone, name, 500);   // what is made once
  await hand.settle(phone);
  const { revision } = await hand.state(phone), before = await heap(phone);
  await edit(phone, name, kEdits);
  await hand.settle(phone);
  const after = await heap(phone), made = (await hand.state(phone)).revision - revision;
  t.diagnostic(`${made} edits: program ${before.program} to ${after.program} MiB, page ${before.page.toFixed(2)} to ${after.page.toFixed(2)} MiB`);
  assert.ok(made > 0.9 * kEdits, `${made} edits`);
  assert.equal(after.program, before.program);
  assert.ok(after.page < 1.15 * before.page, 'the page keeps more and more');
});
