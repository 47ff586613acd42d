// No signal at the pond: the page was opened once, now there is no server any more.
import assert from 'node:assert/strict';
import { copyFileSync, cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import * as hand from './phone.mjs';

const controlled = phone => phone.page.evaluate(async () => {
  await navigator.serviceWorker.ready;
  if (!navigator.serviceWorker.controller)
    await new Promise(done => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
});

test('a newer version that arrives is told in words; a reload brings it, and says it no more', async () => {
  const folder = join(mkdtempSync(join(tmpdir(), 'pondtrim-')), 'site');
  cpSync(hand.site, folder, { recursive: true });
  const started = await hand.startBrowser(folder);
  try {
    const phone = await hand.openPhone(started, { worker: 'allow' });
    await controlled(phone);
    await hand.settle(phone);
    assert.equal((await hand.state(phone)).notice, null, 'the first visit is no newer version');
    for (const [file, change] of [['sw.js', t => t.replace(/'pondtrim-[^']*'/, "'pondtrim-newer'")],
      ['index.html', t => t.replace('<title>', '<title>Newer ')]]) {
      const path = join(folder, file), text = readFileSync(path, 'utf8');
      assert.notEqual(change(text), text, file);
      writeFileSync(path, change(text));
    }
    await phone.page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
    for (const end = Date.now() + 20000; Date.now() < end && !(await hand.state(phone)).notice;) await hand.sleep(100);
    assert.match((await hand.state(phone)).notice, /newer version has arrived.*Boats and drafts stay/);
    await hand.shoot(phone, 'newer-version');
    await phone.page.reload();
    await hand.settle(phone);
    assert.match(await phone.page.title(), /^Newer /);
    assert.equal((await hand.state(phone)).notice, null);
    await phone.context.close();
  } finally {
    await started.close();
  }
});

test('opened once, the app starts without a network and the boat floats', async () => {
  const started = await hand.startBrowser();
  let phone;
  try {
    phone = await hand.openPhone(started, { worker: 'allow' });
    const first = await hand.state(phone);
    await controlled(phone);
    await hand.tap(phone, 'fill.full');
    await started.stopServer();
    await phone.context.setOffline(true);
    // The network is really gone: what the worker does not keep cannot be had.
    assert.equal(await phone.page.evaluate(() => fetch('no-such-file').then(() => 'there', () => 'gone')), 'gone');
    await phone.page.reload();
    await hand.settle(phone);
    const again = await hand.state(phone);
    assert.match(again.sentence, /^Floats /);
    assert.equal(again.empty.bow.draft_mm, first.empty.bow.draft_mm);
    await hand.tap(phone, 'fill.full');
    assert.equal((await hand.state(phone)).fill_share, 1);
  } finally {
    await phone?.context.close();
    await started.close();
  }
});

test('the app as one file floats the same boat without any server', async () => {
  const started = await hand.startBrowser();
  try {
    const phone = await hand.openPhone(started);
    const first = await hand.state(phone);
    await hand.tap(phone, 'section.boat');
    const [download] = await Promise.all([phone.page.waitForEvent('download'), hand.tap(phone, 'file.app')]);
    assert.equal(download.suggestedFilename(), 'pondtrim.html');
    const file = join(mkdtempSync(join(tmpdir(), 'pondtrim-')), 'pondtrim.html');
    copyFileSync(await download.path(), file);
    await started.stopServer();
    const alone = await hand.openPhone({ browser: started.browser, url: `file://${file}` });
    const again = await hand.state(alone);
    assert.equal(again.empty.bow.draft_mm, first.empty.bow.draft_mm);
    await hand.tap(alone, 'fill.full');
    assert.equal((await hand.state(alone)).fill_share, 1);
    assert.deepEqual(alone.errors, []);
    assert.deepEqual([...alone.origins], ['null']);   // the file itself, nothing else
  } finally {
    await started.close();
  }
});
