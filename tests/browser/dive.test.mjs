// The studies on the real page, by touch: dive, heel, pump and depth.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser);

/** Drags the plot's cursor to a share of the plot's width (its right end is the paper's end). */
const read = async (phone, name, share) => {
  const { rect: [l, t, r, b] } = await hand.reveal(phone, name);
  const y = (t + b) / 2, to = l + (r - l) * share;
  await hand.drag(phone, [to - 80, y], [to, y]);
  return hand.control(phone, name);
};

/** "at 250 mL | Bow 89 mm | ..." as numbers by label. */
const values = text => Object.fromEntries(text.split(' | ').map(part => {
  const [, label, number] = part.match(/^(.*?) ?(\u2212?[\d.]+)(?:\u00a0|\u00b0)/);
  return [label, Number(number.replace('\u2212', '-'))];
}));

onPhone('the dive: the cursor moves the tank slider, and the plot says what the cards say', async phone => {
  await hand.tap(phone, 'section.dive');
  const { value } = await read(phone, 'dive.curve', 0.6);
  const s = await hand.state(phone);
  assert.ok(s.fill_share > 0.4 && s.fill_share < 0.7, `fill ${s.fill_share}`);
  const shown = values(value);
  assert.ok(Math.abs(shown.Bow - s.now.bow.draft_mm) < 0.6, `${value} against ${s.now.bow.draft_mm}`);
  assert.ok(Math.abs(shown.Stern - s.now.stern.draft_mm) < 0.6, `${value} against ${s.now.stern.draft_mm}`);
  await hand.tap(phone, 'dive.plot.sail');
  const sail = values((await hand.control(phone, 'dive.curve')).value).Sail;
  assert.ok(Math.abs(sail - s.now.sail_showing_mm) < 0.6, `${sail} against ${s.now.sail_showing_mm}`);
  await hand.tap(phone, 'dive.plot.trim');
  const trim = values((await hand.control(phone, 'dive.curve')).value).Trim;
  assert.ok(Math.abs(trim - s.now.trim_deg) < 0.15, `${trim} against ${s.now.trim_deg}`);
  assert.match((await hand.control(phone, 'dive.verdict')).value, /least GM on the way is [\d.]+ mm/);
  assert.match((await hand.control(phone, 'dive.hover')).value, /moves her by 1\u00a0mm/);
});

onPhone('the dive: a bulkhead is tried, compared with before, then dropped or kept', async phone => {
  const bulkheads = async () => {
    await hand.tap(phone, 'section.tank');
    return (await hand.state(phone)).controls.filter(c => /^tank\.bulkheads\[\d\]$/.test(c.name)).length;
  };
  const offered = async () => (await hand.state(phone)).controls.some(c => c.name === 'dive.keep');
  await hand.tap(phone, 'section.dive');
  const before = await hand.state(phone);
  await hand.tap(phone, 'dive.bulkheads.1');
  assert.equal((await hand.state(phone)).revision, before.revision + 1);
  assert.match((await hand.control(phone, 'dive.curve')).value, /before the trial/);
  assert.match((await hand.control(phone, 'dive.trial')).value, /Most trim .* least GM /);
  await hand.tap(phone, 'dive.drop');
  assert.ok(!await offered());
  assert.equal(await bulkheads(), 0);
  await hand.tap(phone, 'section.dive');
  await hand.tap(phone, 'dive.bulkheads.2');
  await hand.tap(phone, 'dive.keep');
  assert.ok(!await offered());
  assert.match((await hand.control(phone, 'dive.curve')).value, /before the last change/);
  assert.equal(await bulkheads(), 2);
  await hand.tap(phone, 'undo');
  assert.equal(await bulkheads(), 0);
});

onPhone('the righting lever is nothing upright and read where the finger is', async phone => {
  await hand.tap(phone, 'section.heel');
  const { value } = await read(phone, 'heel.curve', 0.5);
  const shown = values(value);
  assert.ok(shown.at > 60 && shown.at < 120, value);
  assert.ok(shown.Surfaced > 1 && shown.Dived > 1, value);
  assert.match((await hand.control(phone, 'heel.spots')).value, /comes to rest/);
  assert.match((await hand.control(phone, 'heel.words')).value, /Surfaced: GM is [\d.]+\u00a0mm/);
});

onPhone('the pump: the cursor runs her down in time, numbers are nudged, a wrong one is refused', async phone => {
  await hand.tap(phone, 'section.pump');
  const { value } = await read(phone, 'pump.curve', 0.5);
  const s = await hand.state(phone), shown = values(value);
  assert.ok(shown['Full battery'] > shown.Tired, value);
  const amount = Number((await hand.control(phone, 'fill.slider')).value.split('\u00a0')[0]);
  assert.ok(Math.abs(shown['Full battery'] - amount) < 1, `${value} against ${amount} mL`);
  const filling = async () => Number((await hand.control(phone, 'pump.number.Filling takes')).value.split('\u00a0')[0]);
  const seconds = await filling();
  await hand.typeNumber(phone, 'ballast.pump.free_flow', '9');
  assert.ok(await filling() > 1.5 * seconds);
  await hand.typeNumber(phone, 'ballast.pump.free_flow', '0');
  const refused = await hand.state(phone);
  assert.match(refused.notice, /moves no water/);
  assert.equal(refused.revision, s.revision + 1);
  await hand.tap(phone, 'pad.cancel');
  const wrong = async (name, digits, words) => {
    const { revision } = await hand.state(phone);
    await hand.typeNumber(phone, name, digits);
    const after = await hand.state(phone);
    assert.match(after.notice, words);
    assert.equal(after.revision, revision);
    await hand.tap(phone, 'pad.cancel');
  };
  await wrong('ballast.cylinder_air', '0', /vent leads nowhere/);
  await hand.tap(phone, 'pump.kind.gas');
  await wrong('ballast.vent_diameter', '0', /without a vent/);
  assert.match((await hand.control(phone, 'pump.words')).value, /One blow at 1\.0 m uses [\d.]+ g of gas/);
});

onPhone('depth: lift is read against depth, and the cylinder comes with its caution', async phone => {
  await hand.tap(phone, 'section.depth');
  const { value } = await read(phone, 'depth.curve', 0.7);
  assert.match(value, /^at [\d.]+\u00a0m \| Lift [\d.]+\u00a0g/);
  assert.match((await hand.control(phone, 'depth.words')).value, /comes up by herself/);
  const collapse = async () => (await hand.control(phone, 'depth.strength')).value;
  const usual = await collapse();
  assert.match(usual, /would collapse somewhere/);
  await hand.typeNumber(phone, 'cylinders[0].elastic_modulus', '3100');
  assert.notEqual(await collapse(), usual);
  await hand.typeNumber(phone, 'depth', '3.5');
  await phone.page.reload();
  await hand.settle(phone);
  await hand.tap(phone, 'section.depth');
  assert.match((await hand.control(phone, 'depth')).label, /^3\.5\u00a0m/);  // the words of a number's button
  assert.match((await hand.control(phone, 'cylinders[0].elastic_modulus')).label, /^3100\u00a0MPa/);
});
