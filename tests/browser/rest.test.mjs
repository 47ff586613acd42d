// The program comes in two parts (web/shell/part.mjs): what the first picture needs, and the rest.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser);
/** How the parts of the rest were asked for: "fetch", or "xmlhttprequest" by somebody who could not wait. */
const asked = phone => phone.page.evaluate(() => performance.getEntriesByType('resource')
  .filter(r => /\/rest/.test(r.name)).map(r => r.initiatorType));
const here = async phone => {
  for (let i = 0; i < 200 && !await phone.page.evaluate('rest.here'); ++i) await hand.sleep(25);
};

/** From the next load on the rest never comes by itself. */
const holdBack = phone => phone.page.addInitScript(() => {
  const usual = globalThis.fetch;
  globalThis.fetch = (name, how) => String(name).startsWith('rest') ? new Promise(() => {}) : usual(name, how);
});

onPhone('the first picture of every boat aboard needs nothing of the rest, which comes by itself afterwards', async phone => {
  await here(phone);
  await hand.tap(phone, 'section.boat');
  const boats = (await hand.state(phone)).controls.map(c => c.name).filter(name => name.startsWith('preset.'));
  assert.ok(boats.length > 4);
  for (const boat of boats) {
    await hand.tap(phone, 'section.boat');
    await hand.reveal(phone, boat);
    await hand.tap(phone, boat);
    await hand.tap(phone, 'section.foam-lead');
    await phone.page.reload();
    await hand.settle(phone);
    await here(phone);
    assert.deepEqual(await asked(phone), ['fetch', 'fetch'], boat);
  }
});

onPhone('who is quicker than the rest gets it at once', async phone => {
  await holdBack(phone);
  await phone.page.reload();
  await hand.settle(phone);
  assert.equal(await phone.page.evaluate('rest.here'), false);
  const before = new Set((await hand.state(phone)).controls.map(c => c.name));
  await hand.tap(phone, 'section.dive');
  assert.ok((await hand.state(phone)).controls.some(c => /dive/.test(c.name) && !before.has(c.name)));
  assert.deepEqual(await asked(phone), ['xmlhttprequest', 'xmlhttprequest']);
});

onPhone('where the signal is gone before the rest has come, it comes when the signal is back', async phone => {
  await phone.page.addInitScript(() => {
    const usual = globalThis.fetch;
    let gone = 2;   // two files, once each
    globalThis.fetch = (name, how) => String(name).startsWith('rest') && gone-- > 0 ? Promise.reject(new TypeError()) : usual(name, how);
  });
  await phone.page.reload();
  await hand.settle(phone);
  assert.equal(await phone.page.evaluate('rest.here'), false);
  await here(phone);
  assert.deepEqual(await asked(phone), ['fetch', 'fetch']);
  assert.equal(await phone.page.evaluate('rest.here'), true);
});

test('who wants the rest where there is no signal is told so', async () => {
  const own = await hand.startBrowser(), phone = await hand.openPhone(own);
  try {
    await holdBack(phone);
    await phone.page.reload();
    await hand.settle(phone);
    await own.stopServer();
    await phone.page.evaluate(() => document.querySelector('#mirror [data-name="section.dive"]').click()).catch(() => {});
    assert.match(await phone.page.textContent('#trouble'), /The rest of the program has not arrived yet/);
  } finally {
    await own.close();
  }
});
