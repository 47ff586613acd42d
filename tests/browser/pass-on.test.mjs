// Passing a boat on, by touch: the code is read by another library from a screenshot, the link opens as a new boat.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import jsQR from 'jsqr';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser);

/** What a camera would read from the screen as it is. */
async function readCode(phone) {
  const { width, height, rgba } = await hand.picture(phone);
  return jsQR(rgba, width, height);
}

/** Opens a link in a page that is open already, as a camera does. */
async function follow(phone, link) {
  await phone.page.evaluate(url => { location.href = url; }, link);
  await hand.settle(phone);
}

const boatText = phone => hand.keptText(phone, 'boat');
const controls = async phone => (await hand.state(phone)).controls;

onPhone('the code on the screen is read by another library, and brings the same boat to another phone',
  { ratio: 2 }, async phone => {
    await hand.tap(phone, 'section.pass-on');
    await hand.tap(phone, 'pass-on.code');
    const read = await readCode(phone);
    assert.ok(read, 'jsQR finds a code');
    assert.ok(read.version <= 25, `version ${read.version}`);
    assert.ok(read.data.startsWith(phone.url + '#boat='));
    await hand.tap(phone, 'code.close');

    const other = await hand.openPhone(browser);
    try {
      await hand.tap(other, 'section.weights');
      const row = (await controls(other)).find(c => c.role === 'slider' && c.label === 'battery');
      await hand.tap(other, row.name.replace('.slider', '.up'));
      const own = JSON.parse(await boatText(other));
      await follow(other, read.data);
      const guest = JSON.parse(await boatText(other));
      assert.match(guest.origin, /^a link, \d{4}-\d\d-\d\d$/);
      assert.match((await hand.state(other)).notice, /came aboard as a new boat/);
      assert.equal(await other.page.evaluate('location.hash'), '');
      // All but the origin is what the first phone has.
      await hand.tap(phone, 'section.boat');
      const [download] = await Promise.all([phone.page.waitForEvent('download'), hand.tap(phone, 'file.save')]);
      delete guest.origin;
      assert.deepEqual(guest, JSON.parse(readFileSync(await download.path(), 'utf8')));
      // The own boat is compared with, and comes back as she was.
      await hand.tap(other, `compare.${own.name}`);
      await hand.shoot(other, 'pass-on-compare');
      await hand.tap(other, 'section.boat');
      await hand.tap(other, `shelf.${own.name}`);
      assert.deepEqual(JSON.parse(await boatText(other)), own);
      assert.deepEqual(other.errors, []);
    } finally {
      await other.context.close();
    }
  });

onPhone('a boat too long for one code is shown in several, and opened from them in any order', async phone => {
  const long = JSON.parse(readFileSync(new URL('../../presets/boats/marrow.boat.json', import.meta.url), 'utf8'));
  long.log = Array.from({ length: 60 }, (_, i) =>
    ({ date: `2026-05-02T10:${String(i).padStart(2, '0')}`, note: `dip ${i * 7919 % 1000}`, tank: 'empty', bow_mm: i * 37 % 11 }));
  await hand.tap(phone, 'section.boat');
  const [chooser] = await Promise.all([phone.page.waitForEvent('filechooser'), hand.tap(phone, 'file.open')]);
  await chooser.setFiles({ name: 'long.boat.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(long)) });
  await hand.settle(phone);
  await hand.tap(phone, 'section.pass-on');
  await hand.tap(phone, 'pass-on.code');
  const count = Number(/of (\d+)/.exec((await hand.control(phone, 'code.words')).value)[1]);
  assert.ok(count >= 2 && count <= 6, `${count} codes`);
  const links = [];
  for (let i = 0; i < count; ++i) {
    const read = await readCode(phone);
    assert.ok(read, `code ${i + 1}`);
    links.push(read.data);
    await hand.tap(phone, 'code.next');
  }
  await hand.shoot(phone, 'pass-on-codes');
  const other = await hand.openPhone(browser);
  try {
    for (const link of links.reverse()) await follow(other, link);
    const came = JSON.parse(await boatText(other));
    assert.equal(came.log.length, 60);
    assert.match(came.origin, /^a link/);
    assert.deepEqual(other.errors, []);
  } finally {
    await other.context.close();
  }
});

/**
 * Stands in for the phone's own sharing and clipboard, which a browser without a screen lacks, and notes down what it is
 * handed: `accepts` is the one kind of file that can be shared, `refuses` the name of the error that everything ends in.
 */
const stubSystem = (phone, { accepts = '', refuses = '' } = {}) => phone.page.evaluate(([kind, error]) => {
  const handed = globalThis.handed = [];
  const put = (name, value) => Object.defineProperty(navigator, name, { value, configurable: true });
  const answer = () => error ? Promise.reject(new DOMException('', error)) : Promise.resolve();
  put('canShare', ({ files }) => files.every(f => f.type === kind));
  put('share', ({ files = [], ...words }) => {
    const note = { ...words };
    handed.push(note);
    return Promise.all(files.map(async f => { note.file = f.name; note.text = await f.text(); })).then(answer);
  });
  put('clipboard', { writeText: text => { handed.push({ copied: text }); return answer(); } });
}, [accepts, refuses]);

onPhone('file, link and text are handed to the phone, which may refuse', async phone => {
  const handed = async (name, system) => {
    await stubSystem(phone, system);
    await hand.tap(phone, name);
    return phone.page.evaluate('globalThis.handed');
  };
  const notice = async () => (await hand.state(phone)).notice;
  await hand.tap(phone, 'section.pass-on');

  const [file] = await handed('pass-on.file', { accepts: 'application/json' });
  assert.match(file.file, /^[\w-]+\.boat\.json$/);
  const own = JSON.parse(file.text);
  assert.ok(own.pondtrim_boat >= 1 && own.skins.length > 0 && own.parts.length > 0);
  const plain = { file: file.file + '.txt', text: file.text };
  assert.deepEqual(await handed('pass-on.file', { accepts: 'text/plain' }), [plain]);
  // What cannot be shared is saved; what the person called off is not.
  for (const system of [{}, { accepts: 'text/plain', refuses: 'NotAllowedError' }]) {
    const [download] = await Promise.all([phone.page.waitForEvent('download'), handed('pass-on.file', system)]);
    assert.equal(readFileSync(await download.path(), 'utf8'), file.text);
  }
  let saved = 0;
  phone.page.on('download', () => { ++saved; });
  assert.deepEqual(await handed('pass-on.file', { accepts: 'text/plain', refuses: 'AbortError' }), [plain]);

  const [link, ...more] = await handed('pass-on.link');
  assert.equal(link.title, own.name);
  assert.ok(link.url.startsWith(phone.url + '#boat='));
  assert.deepEqual(more, []);
  assert.deepEqual(await handed('pass-on.link', { refuses: 'NotAllowedError' }), [link, { copied: link.url }]);
  assert.match(await notice(), /does not let the page copy/);
  assert.deepEqual(await handed('pass-on.link', { refuses: 'AbortError' }), [link]);

  const [text] = await handed('pass-on.copy-text');
  assert.ok(text.copied.includes(own.name) && !text.copied.includes('|'), text.copied);
  assert.equal(await notice(), 'Copied.');
  const [markdown] = await handed('pass-on.copy-markdown');
  assert.match(markdown.copied, /^\|.*\|$/m);
  assert.equal(saved, 0);
});

onPhone('a damaged link is refused with a reason, and the boat stays', async phone => {
  const own = await boatText(phone);
  await follow(phone, phone.url + '#boat=AYxAAAAAAAAA');
  assert.match((await hand.state(phone)).notice, /The link was not opened: This link is damaged/);
  assert.equal(await boatText(phone), own);
});

onPhone('a file dropped on the page opens; a table of weights changes the boat', { touch: false }, async phone => {
  const drop = (name, text) => phone.page.evaluate(([n, t]) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([t], n));
    document.getElementById('canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, [name, text]);
  await drop('other.boat.json', readFileSync(new URL('../../presets/boats/marrow.boat.json', import.meta.url), 'utf8'));
  await hand.settle(phone);
  const before = JSON.parse(await boatText(phone));
  assert.equal(before.origin, 'the file other.boat.json');
  const part = before.parts.find(p => p.mass_g > 10);
  await drop('weights.csv', `name,mass_g\n"${part.name}",${part.mass_g + 25}\n`);
  await hand.settle(phone);
  const after = JSON.parse(await boatText(phone));
  assert.equal(after.parts.find(p => p.name === part.name).mass_g, part.mass_g + 25);
  await drop('weights.csv', 'name,mass_g\nghost,heavy\n');
  await hand.settle(phone);
  assert.match((await hand.state(phone)).notice, /row 2, mass_g/);
  assert.deepEqual(JSON.parse(await boatText(phone)), after);
});

test('the policy of the page lets nothing else in: no other place, no script made from text', async () => {
  const phone = await hand.openPhone(browser);
  try {
    const tried = await phone.page.evaluate(async () => {
      const blocked = [];
      document.addEventListener('securitypolicyviolation', e => blocked.push(e.effectiveDirective));
      const script = document.createElement('script');
      script.textContent = 'globalThis.broken = 1';
      document.body.append(script);
      const image = new Image();
      image.src = 'http://127.0.0.1:9/x.png';
      document.body.append(image);
      await fetch('http://127.0.0.1:9/x').catch(() => {});
      await new Promise(done => setTimeout(done, 200));
      return { blocked: [...new Set(blocked)].sort(), broken: globalThis.broken };
    });
    assert.equal(tried.broken, undefined);
    assert.deepEqual(tried.blocked, ['connect-src', 'img-src', 'script-src-elem']);
  } finally {
    await phone.context.close();
  }
});
