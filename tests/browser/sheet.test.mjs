// The trim sheet on paper, aloud and as text.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { openPhone, settle, sleep, startBrowser, state, tap } from './phone.mjs';

let started, phone;
before(async () => {
  started = await startBrowser();
  phone = await openPhone(started);
});
after(async () => { await started?.close(); });

/** Quicker than by touch, where touch is not what is tested. */
async function press(name) {
  await phone.page.evaluate(n => document.querySelector(`[data-name="${n}"]`).click(), name);
  await settle(phone);
}
const sheetShown = () => phone.page.locator('#sheet').evaluate(e => e.open);

test('the sheet opens by touch, and is closed again with the boat in sight', async () => {
  await tap(phone, 'section.pass-on');
  await tap(phone, 'sheet');
  assert.ok(await sheetShown());
  const { boat, sentence } = await state(phone);
  assert.equal(await phone.page.locator('#sheet h1').textContent(), boat);
  assert.ok((await phone.page.locator('#sheet').textContent()).includes(sentence));
  await phone.page.locator('#close').tap();
  assert.ok(!await sheetShown());
  assert.deepEqual(phone.errors, []);
});

test('every boat that comes along is printed on one page', async () => {
  await tap(phone, 'section.boat');
  for (const { name } of (await state(phone)).controls.filter(c => c.name.startsWith('preset.'))) {
    await press(name);
    await press('sheet');
    const pdf = (await phone.page.pdf({ preferCSSPageSize: true })).toString('latin1');
    assert.equal(pdf.match(/\/Type\s*\/Page\b/g).length, 1, name);
    await phone.page.locator('#close').tap();
    await settle(phone);
  }
});

test('copied, it is text in columns', async () => {
  await press('sheet');
  await phone.context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await phone.page.locator('#copy').tap();
  await sleep(200);
  const text = await phone.page.evaluate('navigator.clipboard.readText()');
  assert.ok(text.startsWith((await state(phone)).boat + '\n==='));
  assert.match(text, /\nWeights\n-+\n/);
  await phone.page.locator('#close').tap();
});

test('a name with markup stays a name', async () => {
  const name = '<img src=x onerror="document.title=1">';
  await phone.page.evaluate(n => { const f = document.querySelector('[data-name=name]'); f.value = n; f.dispatchEvent(new Event('change')); }, name);
  await settle(phone);
  assert.equal((await state(phone)).boat, name);
  await press('sheet');
  assert.equal(await phone.page.locator('#sheet h1').textContent(), name);
  assert.equal(await phone.page.locator('#sheet img').count(), 0);
});

test('axe finds nothing wrong with it', async () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  await phone.page.evaluate(axe);
  const found = await phone.page.evaluate("axe.run('#sheet').then(r => r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html).join()))");
  assert.deepEqual(found, []);
});
