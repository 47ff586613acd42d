// From nothing to a boat of one's own, and what-if on a draft; all of it is there after a reload.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { control, openPhone, settle, shoot, sleep, startBrowser, state, tap, typeNumber } from './phone.mjs';

let started, phone;
before(async () => {
  started = await startBrowser();
  phone = await openPhone(started);
});
after(async () => { await started?.close(); });

// Long pages are not scrolled by finger here: that is tested elsewhere, and slow.
const press = async name => {
  await phone.page.evaluate(n => document.querySelector(`#mirror [data-name="${n}"]`).click(), name);
  await settle(phone);
};
const valueOf = async name => (await control(phone, name)).value;

test('a dozen numbers make a boat, with a plan and with weights marked as estimates', async () => {
  await press('section.boat');
  await press('start');
  await typeNumber(phone, 'start.length', '900');
  const answer = await valueOf('start.answer');
  assert.match(answer, /She weighs about \d+/);
  await shoot(phone, 'start');
  await press('start.build');
  assert.equal((await state(phone)).boat, 'My boat');
  await sleep(600);
  await settle(phone);
  await shoot(phone, 'start-plan');
  await press('section.weights');
  assert.match(await valueOf('notice').catch(() => ''), /first|estimates|^$/i);
  const words = (await state(phone)).controls.map(c => c.label);
  assert.ok(words.some(w => /7 weights are estimates/.test(w)), words.join('\n'));
});

test('a number that makes no boat is refused in words, and the boat in hand stays', async () => {
  await press('section.boat');
  await press('start');
  await typeNumber(phone, 'start.cylinder.diameter', '200');
  await press('start.build');
  const { notice, boat } = await state(phone);
  assert.match(notice, /diameter/);
  assert.equal(boat, 'My boat');
});

test('what if: lead on a draft shows before and after, and is gone when the draft is dropped', async () => {
  await press('section.what-if');
  const before = (await state(phone)).empty.total_mass_g;
  await tap(phone, 'draft.start');
  await press('section.foam-lead');
  await press('add.lead');
  await press('section.what-if');
  assert.match(await valueOf('before-after.To carry'), /→/);
  assert.equal(Math.round((await state(phone)).empty.total_mass_g - before), 50);
  await shoot(phone, 'what-if');
  await phone.page.reload();
  await settle(phone);
  assert.equal(Math.round((await state(phone)).empty.total_mass_g - before), 50);  // the draft is still in hand
  await press('section.what-if');
  await tap(phone, 'draft.drop');
  assert.equal((await state(phone)).empty.total_mass_g, before);
});

test('press and hold on the hull puts a trial weight there', async () => {
  const before = (await state(phone)).empty.total_mass_g;
  const { rect: [l, t, r, b] } = await control(phone, 'picture');
  const at = { x: l + 0.3 * (r - l), y: (t + b) / 2, id: 0 };
  await phone.devtools.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at] });
  for (let i = 0; i < 40 && (await state(phone)).empty.total_mass_g === before; ++i) await sleep(100);
  await phone.devtools.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await settle(phone);
  assert.equal(Math.round((await state(phone)).empty.total_mass_g - before), 50);
  assert.deepEqual(phone.errors, []);
});
