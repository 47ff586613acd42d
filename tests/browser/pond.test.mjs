// The pond log on the real page, by touch.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser, { arrive: phone => hand.tap(phone, 'section.pond') });

const times = async (n, job) => { for (let i = 0; i < n; ++i) await job(); };

onPhone('two dips by touch give the next change; it is put in the boat', async phone => {
  await hand.tap(phone, 'pond.new.empty');
  await hand.tap(phone, 'log[0].bow.down');  // from the line, not from what is expected
  assert.match((await hand.control(phone, 'log[0].bow')).value, /^(0\.5|1|1\.0)\s*mm low$/);
  await times(5, () => hand.tap(phone, 'log[0].bow.down'));
  await times(4, () => hand.tap(phone, 'log[0].stern.down'));
  assert.match((await hand.control(phone, 'log[0].bow')).value, /mm low$/);
  await hand.shoot(phone, 'pond-reading');
  await hand.tap(phone, 'pond.done');
  assert.match((await hand.control(phone, 'pond.verdict')).label, /sail or the pull with the tank full/);
  assert.ok(!(await hand.state(phone)).controls.some(c => c.name === 'pond.apply'), 'no cut before both are read');
  await hand.tap(phone, 'pond.new.full');
  assert.equal((await hand.state(phone)).fill_share, 1);
  await times(5, () => hand.tap(phone, 'log[1].sail_showing.down'));
  await hand.tap(phone, 'log[1].trim.up');
  await hand.tap(phone, 'pond.done');
  const advice = await hand.state(phone);
  assert.match(advice.controls.find(c => c.name === 'pond.card.1').label, /^(Take|Add|Slide) /);
  assert.match((await hand.control(phone, 'pond.after')).label, /\u00b1 .*chance/);
  await hand.shoot(phone, 'pond-next');
  await hand.tap(phone, 'pond.apply');
  const applied = await hand.state(phone);
  assert.equal(applied.revision, advice.revision + 1);
  assert.match((await hand.control(phone, 'pond.verdict')).label, /^Not done: not read since the last change/);
  assert.ok(applied.empty.bow.draft_mm !== advice.empty.bow.draft_mm);
  await hand.tap(phone, 'undo');
  assert.equal((await hand.state(phone)).empty.bow.draft_mm, advice.empty.bow.draft_mm);
});

onPhone('a dip is typed, left out, and deleted; one that cannot be is doubted in words', async phone => {
  await hand.tap(phone, 'pond.new.empty');
  await hand.typeNumber(phone, 'log[0].bow', '60');
  await hand.typeNumber(phone, 'log[0].stern', '1');
  await hand.typeNumber(phone, 'log[0].heel', '0');
  await hand.tap(phone, 'pond.done');
  assert.match((await hand.control(phone, 'pond.doubt')).label, /read it again/i);
  await hand.tap(phone, 'pond.dip.1');
  await hand.tap(phone, 'log[0].used');
  await hand.tap(phone, 'pond.done');
  assert.match((await hand.control(phone, 'pond.dip.1')).label, /^\(left out\)/);
  await hand.tap(phone, 'pond.dip.1');
  await hand.tap(phone, 'log[0].remove');
  assert.ok(!(await hand.state(phone)).controls.some(c => c.name === 'pond.dip.1'));
});

onPhone('a dip with lead laid on her; one that sank, by one hook; one by both ends', async phone => {
  const has = async name => (await hand.state(phone)).controls.some(c => c.name === name);
  await hand.tap(phone, 'pond.new.full');
  await hand.typeNumber(phone, 'log[0].sail_showing', '35');
  await hand.typeNumber(phone, 'log[0].trim', '1');
  await hand.tap(phone, 'pond.more');
  await hand.typeNumber(phone, 'log[0].laid_mass', '40');
  assert.ok(await has('log[0].held_x'), 'the lead lies somewhere');
  assert.ok(!(await has('log[0].pull')), 'she floats, so there is no pull');
  await hand.shoot(phone, 'pond-laid');
  await hand.tap(phone, 'pond.done');
  assert.match((await hand.control(phone, 'pond.dip.1')).label, /40\s*g of lead laid on her/);
  assert.match((await hand.control(phone, 'pond.verdict')).label, /Next: dip her with the tank empty/);

  await hand.tap(phone, 'pond.new.full');
  await hand.tap(phone, 'pond.more');
  await hand.typeNumber(phone, 'log[1].pull', '25');
  assert.ok(await has('log[1].held_x'));
  assert.ok(!(await has('log[1].bow_pull')) && !(await has('log[1].laid_mass')));
  await hand.shoot(phone, 'pond-hook');
  await hand.tap(phone, 'pond.done');

  await hand.tap(phone, 'pond.new.full');
  await hand.tap(phone, 'pond.more');
  await hand.typeNumber(phone, 'log[2].bow_pull', '15');
  await hand.typeNumber(phone, 'log[2].stern_pull', '10');
  assert.ok(await has('log[2].bow_hook_x'));
  await hand.tap(phone, 'pond.done');
  assert.match((await hand.control(phone, 'pond.dip.3')).label, /bow hook 15\s*g, stern hook 10\s*g/);
});
