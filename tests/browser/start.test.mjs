// From nothing to a boat of one's own, and what-if on a draft; all of it is there after a reload.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { control, openPhone, settle, shoot, sleep, slide, startBrowser, state, tap, typeNumber } from './phone.mjs';

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

test('while she is typed in, picture and words are of the boat described; the one in hand stays as she was', async () => {
  const first = await state(phone);
  await press('section.boat');
  await press('start');
  const described = await state(phone);
  assert.equal(described.pictured, 'My boat');
  assert.notEqual(described.sentence, first.sentence);
  const picture = async () => (await phone.page.screenshot({ clip: { x: 0, y: 60, width: 390, height: 150 } })).toString('base64');
  const before = await picture();
  await typeNumber(phone, 'start.length', '700');
  assert.notEqual(await picture(), before, 'a shorter boat in the picture');
  assert.notEqual((await state(phone)).sentence, described.sentence);
  await typeNumber(phone, 'start.cylinder.diameter', '200');   // no boat at all: the last one stays in sight
  assert.equal((await state(phone)).pictured, 'My boat');
  await typeNumber(phone, 'start.cylinder.diameter', '80');
  await tap(phone, 'fill.full');
  const { rect: [l, t, r, b] } = await control(phone, 'picture');
  await phone.page.touchscreen.tap((l + r) / 2, (t + b) / 2);
  await settle(phone);
  assert.ok((await state(phone)).controls.some(c => c.name === 'start.build'), 'a tap on her parts leads nowhere yet');
  await press('section.weights');
  const back = await state(phone);
  assert.equal(back.pictured, first.boat);
  for (const same of ['boat', 'revision', 'sentence', 'fill_share']) assert.equal(back[same], first[same], same);
});

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

test('a full-size boat at a scale gives the model\'s sizes; a reload keeps what was typed', async () => {
  await press('section.boat');
  await press('start');
  await press('start.from.full-size');
  await typeNumber(phone, 'scale.scale', '96');
  await typeNumber(phone, 'scale.length', '72');
  await typeNumber(phone, 'scale.displacement', '1800');
  // 72 m / 96 = 750 mm; 1,800 t / 96^3 = 2,034 g in the sea, and in fresh water by its density less.
  const told = (await valueOf('scale.answer')).match(/The model: 750(?:\.0)?\smm long.*she pushes (\d+)\sg of water aside/);
  assert.ok(told, await valueOf('scale.answer'));
  assert.ok(Number(told[1]) > 0.97 * 2034 && Number(told[1]) < 2034, told[1]);
  await shoot(phone, 'start-scale');
  const answer = await valueOf('scale.answer');
  await phone.page.reload();
  await settle(phone);
  await press('section.boat');
  await press('start');
  await press('start.from.full-size');
  assert.equal(await valueOf('scale.answer'), answer);
  await press('scale.use');
  assert.match((await control(phone, 'start.length')).label, /^750/);
  await phone.page.reload();
  await settle(phone);
  await press('section.boat');
  await press('start');
  assert.match((await control(phone, 'start.length')).label, /^750/);
  await typeNumber(phone, 'start.length', '900');
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

test('what if: another battery on a draft stands beside the one she has', async () => {
  const before = (await state(phone)).empty.total_mass_g;
  await press('section.what-if');
  await tap(phone, 'draft.start');
  await press('draft.weights');
  const row = (await state(phone)).controls.find(c => c.role === 'slider' && c.label === 'battery');
  await slide(phone, row.name, 0.95);
  const heavier = (await state(phone)).empty.total_mass_g;
  assert.ok(heavier > before + 50, `${before} to ${heavier}`);
  await press('section.what-if');
  const grams = (await valueOf('before-after.To carry')).replace(/[\s,]/g, '').match(/(\d+)g→(\d+)g/);
  assert.ok(grams, await valueOf('before-after.To carry'));
  assert.ok(Math.abs(grams[2] - grams[1] - (heavier - before)) <= 1, `${grams[0]}, ${heavier - before}`);
  await shoot(phone, 'what-if-battery');
  await tap(phone, 'draft.drop');
  assert.equal((await state(phone)).empty.total_mass_g, before);
});

test('several drafts by name: renamed, changed between, one kept, one dropped', async () => {
  const lines = async () => (await state(phone)).controls.filter(c => /^drafts\.[^.]*$/.test(c.name)).map(c => c.label);
  const mass = async () => Math.round((await state(phone)).empty.total_mass_g);
  const bare = await mass();
  await press('section.what-if');
  await press('draft.start');
  await tap(phone, 'draft.name');
  for (const _ of 'Draft 1') await phone.page.keyboard.press('Backspace');
  await phone.page.keyboard.type('Heavy keel');
  await settle(phone);
  await phone.page.keyboard.press('Enter');
  await settle(phone);
  await press('section.foam-lead');
  for (let i = 0; i < 2; ++i) await press('add.lead');
  await press('section.what-if');
  await press('draft.start');
  assert.deepEqual(await lines(), ['Heavy keel']);
  assert.equal(await mass(), bare, 'the next draft begins with the boat');
  await press('section.foam-lead');
  await press('add.lead');
  assert.equal(await mass(), bare + 50);
  await press('section.what-if');
  await press('drafts.Heavy keel');
  assert.equal(await mass(), bare + 100);
  assert.deepEqual(await lines(), ['Draft 1']);
  await phone.page.reload();
  await settle(phone);
  await press('section.what-if');
  assert.deepEqual([await mass(), await lines()], [bare + 100, ['Draft 1']]);
  await press('drafts.Draft 1');
  assert.equal(await mass(), bare + 50);
  await press('draft.keep');
  assert.equal(await mass(), bare + 50);
  assert.deepEqual(await lines(), ['Heavy keel']);
  await press('drafts.Heavy keel');
  assert.match((await state(phone)).notice, /changed since this draft/);
  await press('draft.drop');
  assert.deepEqual([await mass(), await lines()], [bare + 50, []]);
  await press('undo');
  assert.equal(await mass(), bare, 'one step leads back from what was kept');
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
