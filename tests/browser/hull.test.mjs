// The page Hull: every kind of piece is added by touch and drawn, a table of offsets is pasted, handles are dragged.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import { control, drag, phoneTests, reveal, settle, shoot, startBrowser, state, tap, typeNumber } from './phone.mjs';

let started;
before(async () => { started = await startBrowser(); });
after(async () => { await started?.close(); });
const onPhone = phoneTests(() => started, { ratio: 2, arrive: phone => tap(phone, 'section.hull') });

// Long pages are scrolled by finger once; elsewhere that is slow and shows nothing new.
const press = async (phone, name) => {
  await phone.page.evaluate(n => document.querySelector(`#mirror [data-name="${n}"]`).click(), name);
  await settle(phone);
};

const pieces = async phone =>
  (await state(phone)).controls.filter(c => /^skins\[\d+\]\.mass\.open$/.test(c.name)).length;

onPhone('hull, casing, sail, keel, planes and skeg are added, each open to be changed', async phone => {
  const before = await pieces(phone);
  const kinds = ['hull', 'casing', 'sail', 'keel', 'planes', 'skeg'];
  for (const [n, kind] of kinds.entries()) {
    await (kind === 'casing' ? tap : press)(phone, `add.${kind}`);
    assert.equal(await pieces(phone), before + n + 1, kind);
    await control(phone, `skins[${before + n}].form.length`);
    assert.equal((await state(phone)).notice, null);
    if (kind !== 'hull') await shoot(phone, `hull-${kind}`);
  }
});

onPhone('the hull becomes a SUBOFF and a Myring body of the same length, and back', async phone => {
  await press(phone, 'skins[0].mass.open');
  const length = (await control(phone, 'skins[0].form.length')).label;
  assert.match(length, /\d\smm/);
  await tap(phone, 'skins[0].form.kind.suboff');
  assert.equal((await control(phone, 'skins[0].form.length')).label, length);
  await shoot(phone, 'hull-suboff');
  await press(phone, 'skins[0].form.kind.myring');
  await control(phone, 'skins[0].form.tail_angle');
  await shoot(phone, 'hull-myring');
  await tap(phone, 'undo');
  await tap(phone, 'undo');
  await control(phone, 'skins[0].form.section_power');
});

onPhone('a tail too blunt for its length is refused in words, and the hull stays', async phone => {
  await press(phone, 'skins[0].mass.open');
  await press(phone, 'skins[0].form.kind.myring');
  const angle = (await control(phone, 'skins[0].form.tail_angle')).label;
  await typeNumber(phone, 'skins[0].form.tail_angle', '80');
  assert.match((await state(phone)).notice, /tail/);
  await tap(phone, 'pad.cancel');
  assert.equal((await control(phone, 'skins[0].form.tail_angle')).label, angle);
});

const kTable = `x_mm\tkeel\tdeck\t20\t40\t60\t80
0\t50\t50
150\t20\t90\t\t28\t36\t26
400\t0\t110\t36\t50\t54\t46
650\t0\t110\t36\t50\t54\t46
850\t15\t95\t14\t34\t40\t30
950\t55\t55`;

onPhone('a table of offsets is pasted; what is wrong with it is said beside it', async phone => {
  await press(phone, 'skins[0].mass.open');
  await press(phone, 'skins[0].form.kind.offsets');
  assert.equal((await state(phone)).notice, null);
  await press(phone, 'skins[0].form.stations');
  const text = phone.page.locator('#table textarea'), fault = phone.page.locator('#table-fault');
  assert.match(await text.inputValue(), /^x_mm,keel,deck,/);
  await text.fill(kTable.replace('36\t50\t54', '36\t5O\t54'));
  await phone.page.locator('#table-use').tap();
  assert.match(await fault.textContent(), /row 4, 40.*5O/);
  await shoot(phone, 'hull-table-fault');
  await text.fill(kTable);
  await phone.page.locator('#table-use').tap();
  await settle(phone);
  assert.equal(await phone.page.locator('#table').evaluate(d => d.open), false);
  const words = () => state(phone).then(s => s.controls.map(c => c.label).join('\n'));
  assert.match(await words(), /Holds .* mL, give or take/);
  await reveal(phone, 'skins[0].areas');
  await shoot(phone, 'hull-offsets');
  await tap(phone, 'undo');
  assert.doesNotMatch(await words(), /6 stations/);
});

onPhone('openings tell where air would stay, and the painted line comes as a table', async phone => {
  await press(phone, 'skins[0].mass.open');
  await press(phone, 'skins[0].add.opening');
  const words = () => state(phone).then(s => s.controls.map(c => c.label).join('\n'));
  await tap(phone, 'fill.full');
  assert.doesNotMatch(await words(), /air would stay in "hull"/);
  await typeNumber(phone, 'openings[0].position.z', '50');
  assert.match(await words(), /About \d+ mL of air would stay in "hull"/);
  await press(phone, 'line');
  assert.match(await words(), /At \d+\smm: down \d+(\.\d)?\smm, up/);
  await shoot(phone, 'hull-line');
});

onPhone('handles in the picture change length, height and painted line, each drag one step', async phone => {
  const pull = async (name, dx, dy) => {
    const { rect: [l, t, r, b] } = await control(phone, name);
    assert.ok(r - l >= 44 && b - t >= 44, `${name} is ${r - l} by ${b - t}`);
    const x = (l + r) / 2, y = (t + b) / 2;
    await drag(phone, [x, y], [x + dx, y + dy]);
  };
  const number = async name => parseFloat((await control(phone, name)).value);
  await shoot(phone, 'hull-handles');
  for (const [name, dx, dy, grows] of [['handle.length', -30, 0, -1], ['handle.height', 0, -12, 1], ['handle.line', 0, 6, -1]]) {
    const before = await number(name);
    await pull(name, dx, dy);
    const after = await number(name);
    assert.ok((after - before) * grows > 1, `${name}: ${before} to ${after}`);
    await tap(phone, 'undo');
    assert.equal(await number(name), before);
  }
  await tap(phone, 'view.end');
  const beam = await number('handle.beam');
  await pull('handle.beam', 20, 0);
  assert.notEqual(await number('handle.beam'), beam);
  await shoot(phone, 'hull-handles-end');
});
