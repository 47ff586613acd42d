// Without the canvas: controls found by role and name, worked by keyboard alone, and checked by axe.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before } from 'node:test';
import * as hand from './phone.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const kOperable = ['button', 'slider', 'plot', 'text', 'entry', 'picture'];
let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

/** A small window on a desk: no touch at all. */
const atDesk = hand.phoneTests(() => browser, { size: { width: 700, height: 480 }, touch: false });

const sectionsOf = async desk => (await hand.state(desk)).controls.filter(c => c.name.startsWith('section.'));
const focused = desk => desk.page.evaluate(() => document.activeElement.dataset.name ?? '');
const click = async (desk, name) => {
  await desk.page.evaluate(n => document.querySelector(`#mirror [data-name="${n}"]`).click(), name);
  await hand.settle(desk);
};
const press = async (desk, ...keys) => { for (const key of keys) await desk.page.keyboard.press(key); };

/** Keys are worked off frame by frame, slowly on a busy machine: waits for what they lead to. */
async function comesTrue(desk, what, holds) {
  for (const end = Date.now() + 10000; Date.now() < end; await hand.sleep(50)) if (await holds()) return hand.settle(desk);
  assert.fail(what);
}

/** Tab until the focus is on a control of that name; its place in the walk. */
async function tabTo(desk, name, key = 'Tab') {
  for (let i = 0; i < 150; ++i) {
    if (await focused(desk) === name) return;
    await press(desk, key);
  }
  throw new Error(`Tab never comes to "${name}"`);
}

async function violations(desk) {
  if (!await desk.page.evaluate('typeof axe === "object"')) await desk.page.evaluate(axe);
  const found = await desk.page.evaluate(async () => (await axe.run(document, { resultTypes: ['violations'] })).violations);
  return found.map(v => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(n => n.html).join(' ')}`);
}

atDesk('axe finds nothing to complain about on any page', async desk => {
  for (const { name } of await sectionsOf(desk)) {
    await click(desk, name);
    assert.deepEqual(await violations(desk), [], name);
  }
  for (const name of ['start', 'start.from.full-size']) {   // the page that Boat leads to
    if (name === 'start') await click(desk, 'section.boat');
    await click(desk, name);
    assert.deepEqual(await violations(desk), [], name);
  }
});

/** Walks by Tab over all that comes after a control that has the focus. */
async function walkOn(desk, from) {
  const { controls } = await hand.state(desk);
  const wanted = controls.slice(controls.findIndex(c => c.name === from) + 1)
    .filter(c => kOperable.includes(c.role) && !c.disabled).map(c => c.name);
  assert.deepEqual(wanted.filter(n => n.startsWith('item.')), [], 'each item has a name of ours');
  await desk.page.evaluate('walked = []');
  for (const name of wanted) if (name) await press(desk, 'Tab');
  assert.deepEqual(await desk.page.evaluate('walked'), wanted, from);
  await hand.settle(desk);
  const { rect: [l, t, r, b] } = await hand.control(desk, wanted.at(-1));
  assert.ok(r - l > 20 && b - t > 20, `${wanted.at(-1)} was scrolled into sight`);
  return wanted;
}
const focusOn = (desk, name) => desk.page.evaluate(n => document.querySelector(`#mirror [data-name="${n}"]`).focus(), name);

atDesk('every control of every page is reached by Tab alone, in sight and ringed', async desk => {
  const sections = await sectionsOf(desk);
  assert.ok(sections.length >= 12);
  await desk.page.evaluate(() => {
    globalThis.walked = [];
    document.addEventListener('focusin', e => walked.push(e.target.dataset.name));
  });
  for (const { name: section } of sections) {
    if (section === sections[0].name) await tabTo(desk, section);
    else await focusOn(desk, section);
    await press(desk, 'Enter');
    await hand.settle(desk);
    await walkOn(desk, section);
  }
  await focusOn(desk, 'section.boat');   // Boat leads to the page of a new boat
  await press(desk, 'Enter');
  await hand.settle(desk);
  await tabTo(desk, 'start');
  await press(desk, 'Enter');
  await hand.settle(desk);
  await focusOn(desk, 'section.boat');
  assert.ok((await walkOn(desk, 'section.boat')).includes('start.build'));
  await focusOn(desk, 'start.from.full-size');
  await press(desk, 'Enter');
  await hand.settle(desk);
  await focusOn(desk, 'section.boat');
  assert.ok((await walkOn(desk, 'section.boat')).includes('scale.use'));
});

atDesk('a number is typed, nudged and slid by keyboard', async desk => {
  const row = (await hand.state(desk)).controls.find(c => /^parts.*mass$/.test(c.name)).name;
  const mass = async () => (await hand.state(desk)).empty.total_mass_g;
  const before = await mass();
  await tabTo(desk, `${row}.up`);
  await press(desk, 'Enter');
  await hand.settle(desk);
  assert.ok(await mass() > before + 1);
  const nudged = await mass();
  await tabTo(desk, `${row}.slider`);
  await press(desk, 'ArrowRight', 'ArrowRight');
  await hand.settle(desk);
  assert.ok(await mass() > nudged);
  await tabTo(desk, row, 'Shift+Tab');
  await press(desk, 'Enter');
  await comesTrue(desk, 'the pad opens and takes the focus', async () => await focused(desk) === 'pad.typed');
  await press(desk, '1', '2', '5', 'Backspace', '3', 'Enter');
  await comesTrue(desk, 'the focus comes back to where the pad was opened', async () => await focused(desk) === row);
  assert.match((await hand.control(desk, row)).label, /^123/);
  await press(desk, 'Enter');
  await comesTrue(desk, 'the pad opens again', async () => await focused(desk) === 'pad.typed');
  await press(desk, '9', 'Escape');
  await comesTrue(desk, 'Escape closes the pad', async () => await focused(desk) === row);
  assert.match((await hand.control(desk, row)).label, /^123/);
  await press(desk, 'Control+z');
  await hand.settle(desk);
  assert.doesNotMatch((await hand.control(desk, row)).label, /^123/);
});

atDesk('found by role and name, a control does its work and tells its value and state', async desk => {
  const tank = desk.page.getByRole('slider', { name: 'Water in the tank' });
  await tank.fill('0.5');
  await hand.settle(desk);
  assert.equal((await hand.state(desk)).fill_share, 0.5);
  assert.match(await tank.getAttribute('aria-valuetext'), /\smL$/);
  await desk.page.getByRole('button', { name: 'Full', exact: true }).press('Enter');
  await hand.settle(desk);
  assert.equal((await hand.state(desk)).fill_share, 1);
  assert.equal(await desk.page.getByRole('button', { name: 'Full', exact: true }).getAttribute('aria-current'), 'true');
  assert.ok(await desk.page.getByRole('button', { name: 'Undo' }).isDisabled());
  await desk.page.getByRole('navigation', { name: 'Sections' }).getByRole('button', { name: 'Boat' }).press(' ');
  await hand.settle(desk);
  const name = desk.page.getByRole('textbox', { name: 'Name of the boat' });
  await name.fill('Tin <b>Whistle</b>');
  await name.press('Enter');
  await hand.settle(desk);
  assert.equal((await hand.state(desk)).boat, 'Tin <b>Whistle</b>');
  assert.match(await desk.page.getByRole('status').textContent(), /^Floats /);
  assert.equal(await desk.page.locator('#mirror b').count(), 0, 'a name stays text');
});

atDesk('arrow keys walk the controls of a part, and the mirror walks with them; the picture turns by keyboard', async desk => {
  await tabTo(desk, 'fill.empty');
  await press(desk, 'ArrowRight');
  await hand.settle(desk);
  assert.notEqual(await focused(desk), 'fill.empty');
  await tabTo(desk, 'view.around', 'Shift+Tab');
  await press(desk, ' ');
  await hand.settle(desk);
  const before = await hand.state(desk);
  await tabTo(desk, 'picture', 'Shift+Tab');
  await press(desk, 'ArrowRight', 'ArrowRight', '+');
  await hand.settle(desk);
  const after = await hand.state(desk);
  assert.ok(Math.abs(after.yaw - before.yaw) > 0.1);
  assert.ok(after.zoom > before.zoom);
});
