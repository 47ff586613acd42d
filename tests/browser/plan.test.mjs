// The trim plan on the real page, by touch.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser, { arrive: async phone => {
  await hand.tap(phone, 'section.boat');
  await hand.tap(phone, 'preset.Crooked Sixpence (poor trim to fix)');
  await hand.tap(phone, 'section.plan');
} });

const off = s => [s.empty.bow.line_above_water_mm, s.empty.stern.line_above_water_mm];

onPhone('a plan is read, put in the boat, and taken out again by one undo', async phone => {
  const old = await hand.state(phone);
  assert.ok(Math.max(...off(old).map(Math.abs)) > 3, `she floats badly: ${off(old)}`);
  const first = await hand.control(phone, 'plan.card.1');
  assert.match(first.label, /^(Take|Put|Add|Move) /);
  const cards = old.controls.filter(c => c.name.startsWith('plan.card.'));
  assert.ok(cards.length >= 2);
  for (const c of old.controls.filter(c => c.name.startsWith('plan.proof.'))) assert.equal(c.value, 'holds', c.label);
  const pictures = old.controls.filter(c => c.name.startsWith('plan.picture.'));
  assert.deepEqual(pictures.map(c => c.label), ['Tank empty', 'Tank full']);
  for (const c of pictures) assert.match(c.value, /now: .*(high|low|up|down).* With the plan: .*(on her line|level)/);
  assert.match((await hand.control(phone, 'key')).value, /dashed: planned/);
  await hand.tap(phone, 'plan.apply');
  const now = await hand.state(phone);
  assert.ok(Math.max(...off(now).map(Math.abs)) < 0.5, `on her line: ${off(now)}`);
  assert.equal(now.revision, old.revision + 1);
  assert.ok(now.controls.some(c => c.name === 'plan.nothing'), 'nothing is left to do');
  assert.match((await hand.control(phone, 'key')).value, /dashed: before/);
  await hand.shoot(phone, 'plan-applied');
  await hand.tap(phone, 'undo');
  assert.deepEqual(off(await hand.state(phone)), off(old));
});

onPhone('the wish changes the plan; the plots are read with a finger', async phone => {
  const cards = async () => (await hand.state(phone)).controls.filter(c => c.name.startsWith('plan.card.')).length;
  const lightest = await cards();
  await hand.tap(phone, 'plan.goal.changes');
  assert.ok(await cards() <= lightest);
  await hand.tap(phone, 'plan.pieces.whole');
  assert.ok(await cards() > 0);
  await hand.tap(phone, 'plan.goal.stability');
  await hand.tap(phone, 'plan.lead.limited');
  await hand.control(phone, 'lead_budget');
  await hand.tap(phone, 'plan.polygon.tank empty');
  assert.match((await hand.control(phone, 'plan.polygon.tank empty.words')).label, /(heavier|lighter) than now.*reach/);
  await hand.reveal(phone, 'plan.curve');
  assert.match((await hand.control(phone, 'plan.curve')).value, /mm.*To carry [\d.]+\u00a0g/);
});

onPhone('no room: the limits are blamed by name, and what would do is said', async phone => {
  await hand.tap(phone, 'section.tank');
  await hand.typeNumber(phone, 'tank.capacity', '150');
  await hand.tap(phone, 'section.plan');
  const s = await hand.state(phone);
  assert.ok(s.controls.some(c => c.name === 'plan.none'), 'no plan');
  const blame = s.controls.filter(c => c.name.startsWith('plan.conflict.') || c.name.startsWith('plan.remedy.'));
  assert.ok(blame.some(c => /\d+ mL too small|would have to be/.test(c.label)), blame.map(c => c.label).join(' / '));
});

onPhone('a condition besides the usual two is asked for, planned for and left out again', async phone => {
  await hand.tap(phone, 'aims.other-water');
  await hand.control(phone, 'aims.further[0].water.salinity');
  const s = await hand.state(phone);
  assert.ok(s.controls.some(c => c.name === 'plan.picture.2' || c.name === 'plan.none'), 'three conditions, or why not');
  await hand.tap(phone, 'aims.further[0].remove');
  assert.ok(!(await hand.state(phone)).controls.some(c => c.name.startsWith('aims.further')));
});
