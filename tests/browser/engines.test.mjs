// Smoke in other engines: the app starts, draws, answers a finger, takes a number from the pad, and then rests.
import assert from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { openDisplay, openFirefox, openWebKit } from './engines.mjs';
import { artifacts, kPhone, sleep, startSite } from './phone.mjs';

let site, display;
before(async () => {
  site = await startSite();
  display = await openDisplay();
});
after(() => {
  display?.close();
  site?.close();
});

async function settled(browser) {
  for (const end = Date.now() + 60000; Date.now() < end; await sleep(100)) {
    const state = await browser.ask('globalThis.pondtrimState ? pondtrimState() : null').catch(() => null);
    if (state?.ready && state.resting) return state;
  }
  throw new Error('the app does not start, or never rests');
}

async function tap(browser, name) {
  const [l, t, r, b] = (await settled(browser)).controls.find(c => c.name === name).rect;
  assert.ok(r > l && b > t, `${name} is in sight`);
  await browser.tap((l + r) / 2, (t + b) / 2);
  await sleep(100);
  return settled(browser);
}

async function smoke(browser, name) {
  await browser.go(site.url);
  const first = await settled(browser);
  assert.match(first.sentence, /^Floats /);
  const full = await tap(browser, 'fill.full');
  assert.equal(full.fill_share, 1);
  assert.ok(full.now.bow.draft_mm > first.now.bow.draft_mm + 10);
  const row = full.controls.find(c => /^parts.*volume$/.test(c.name)).name;
  await tap(browser, row);
  for (const key of ['pad.7', 'pad.7', 'pad.set']) await tap(browser, key);
  const typed = await settled(browser);
  assert.match(typed.controls.find(c => c.name === row).label, /^77/);
  await sleep(2000);
  assert.equal((await settled(browser)).frames, typed.frames, 'nothing is drawn while nothing changes');
  mkdirSync(artifacts, { recursive: true });
  writeFileSync(join(artifacts, `${name}.png`), await browser.shoot());
}

for (const [name, open] of [['firefox', openFirefox], ['webkit', openWebKit]])
  test(`${name} starts the app, and a finger works it`, async () => {
    const browser = await open(display, kPhone);
    try {
      await smoke(browser, name);
    } finally {
      await browser.close();
    }
  });
