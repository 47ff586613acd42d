// A phone for the tests of the real page: Chromium with touch, the built site, and hands.
import { fileURLToPath } from 'node:url';
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { chromium } from 'playwright-core';
import { startServer } from '../../web/server.mjs';

const root = resolve(fileURLToPath(new URL('.', import.meta.url)), '../..');
export const site = process.env.PONDTRIM_SITE ?? join(root, 'build/web/site');
export const artifacts = process.env.PONDTRIM_ARTIFACTS ?? join(root, 'build/artifacts');
const kFlags = ['--no-sandbox', '--use-angle=swiftshader', '--use-gl=angle', '--enable-unsafe-swiftshader',
  '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update',
  '--disable-sync'];

export const kPhone = { width: 390, height: 844 };
export const sleep = ms => new Promise(done => setTimeout(done, ms));

/** Serves the built site. */
export async function startSite(folder = site) {
  const { server, port } = await startServer(resolve(folder));
  return { server, url: `http://localhost:${port}/`, close: () => { server.closeAllConnections(); server.close(); } };
}

/** Starts browser and server; `close` ends both. */
export async function startBrowser(folder = site) {
  const { server, url } = await startSite(folder);
  const browser = await chromium.launch({
    executablePath: process.env.PONDTRIM_CHROMIUM ?? '/usr/bin/chromium', headless: true, args: kFlags });
  const stopServer = () => new Promise(done => { server.closeAllConnections(); server.close(done); });
  return { browser, url, stopServer, async close() { await browser.close(); server.close(); } };
}

/** A page of the app, ready to be touched. */
export async function openPhone({ browser, url }, { size = kPhone, ratio = 1, touch = true, worker = 'block' } = {}) {
  const context = await browser.newContext({
    viewport: size, deviceScaleFactor: ratio, hasTouch: touch, isMobile: touch, serviceWorkers: worker,
    acceptDownloads: true });
  const page = await context.newPage();
  const errors = [], origins = new Set();
  page.on('pageerror', e => errors.push(String(e)));
  page.on('console', m => { if (m.type() === 'error') errors.push(m.text()); });
  page.on('request', r => { if (!/^(data|blob):/.test(r.url())) origins.add(new URL(r.url()).origin); });
  const phone = { page, context, errors, origins, url };
  await page.goto(url);
  phone.devtools = await context.newCDPSession(page);
  await settle(phone);
  return phone;
}

export const state = phone => phone.page.evaluate('pondtrimState()');

const inStore = (phone, deed) => phone.page.evaluate(([mode, key, text]) => new Promise((done, failed) => {
  const opened = indexedDB.open('pondtrim', 1);
  opened.onerror = () => failed(opened.error);
  opened.onsuccess = () => {
    const table = opened.result.transaction('kept', mode).objectStore('kept');
    const request = mode === 'readonly' ? table.get(key) : table.put(text, key);
    table.transaction.oncomplete = () => { opened.result.close(); done(request.result); };
    table.transaction.onabort = () => failed(table.transaction.error);
  };
}), deed);

/** What the page keeps across visits, read and changed behind the app's back. */
export const keptText = (phone, key) => inStore(phone, ['readonly', key]);
export const keepText = (phone, key, text) => inStore(phone, ['readwrite', key, text]);

/** Asks again and again from outside: the page's policy lets no one make functions from text in it. */
async function untilReady(phone) {
  const ready = () => phone.page.evaluate('!!(globalThis.pondtrimState && pondtrimState().ready)').catch(() => false);
  for (const end = Date.now() + 30000; Date.now() < end; await sleep(40)) if (await ready()) return;
  throw new Error('the app does not start');
}

/** Waits until the app has drawn and owes no more frames, and nothing reaches it for a moment after. */
export async function settle(phone) {
  await untilReady(phone);
  const kMoment = 40;
  for (let before = -1, end = Date.now() + 30000; Date.now() < end; await sleep(kMoment)) {
    const { frames, resting } = await state(phone);
    if (resting && frames === before) return;
    before = frames;
  }
  throw new Error('the app never stops drawing');
}

export async function control(phone, name) {
  const found = (await state(phone)).controls.find(c => c.name === name);
  if (!found) throw new Error(`no control "${name}" on the screen; there are: ` +
    (await state(phone)).controls.map(c => c.name).join(', '));
  return found;
}

const middle = ([left, top, right, bottom]) => [(left + right) / 2, (top + bottom) / 2];
const inSight = ({ rect: [l, t, r, b] }) => r - l > 20 && b - t > 20;

const touchAt = (phone, type, points) => phone.devtools.send('Input.dispatchTouchEvent',
  { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });

/** One finger from one point to another. */
export async function drag(phone, from, to, steps = 12) {
  await touchAt(phone, 'touchStart', [from]);
  for (let i = 1; i <= steps; ++i) {
    const k = i / steps;
    await touchAt(phone, 'touchMove', [[from[0] + (to[0] - from[0]) * k, from[1] + (to[1] - from[1]) * k]]);
    await sleep(16);
  }
  await sleep(80);
  await touchAt(phone, 'touchEnd', []);
  await settle(phone);
}

/** Two fingers side by side: `[x, y, spread]` at the beginning and at the end. */
export async function twoFingers(phone, from, to) {
  const apart = ([x, y, spread]) => [[x - spread / 2, y], [x + spread / 2, y]];
  await touchAt(phone, 'touchStart', apart(from).slice(0, 1));
  await touchAt(phone, 'touchStart', apart(from));
  for (let i = 1; i <= 10; ++i) {
    await touchAt(phone, 'touchMove', apart(from.map((v, k) => v + (to[k] - v) * i / 10)));
    await sleep(16);
  }
  await touchAt(phone, 'touchEnd', []);
  await settle(phone);
}

/**
 * Gives `onPhone(name, [options,] job)`: a test on a fresh phone, which must end without one error on the console; the job gets the
 * phone and the test's own context.
 * `started` gives what startBrowser gave; `arrive` is done on each phone first; the options are openPhone's, and todo.
 */
export const phoneTests = (started, { arrive = async () => {}, ...usual } = {}) => (name, ...rest) => {
  const job = rest.pop(), [{ todo = false, ...options } = {}] = rest;
  return test(name, { todo }, async context => {
    const phone = await openPhone(started(), { ...usual, ...options });
    try {
      await arrive(phone);
      await job(phone, context);
      assert.deepEqual(phone.errors, []);
    } finally {
      await phone.context.close();
    }
  });
};

const clamp = (v, most) => Math.max(-most, Math.min(most, v));

async function wheel(phone, at, by) {
  await phone.page.mouse.move(...at);
  await phone.page.mouse.wheel(...by);
  await settle(phone);
}

/** Moves the row of sections towards one that is out of sight: with the wheel while it is far, then with a finger. */
async function pullRow(phone, found, [left, top, right, bottom]) {
  const whole = phone.page.viewportSize().width;
  const [from, to] = left > whole / 2 ? [0.68 * whole, 0.95 * whole] : [0.12 * whole, 0.88 * whole];  // a column, all
  const y = (top + bottom) / 2, far = (from + to - found.whole[0] - found.whole[2]) / 2, way = clamp(far, to - from);
  if (Math.abs(far) > 350) return wheel(phone, [(left + right) / 2, y], [-1.7 * far, 0]);
  const start = way < 0 ? to : from;
  await drag(phone, [start, y], [start + way, y], 6);
}

/** Scrolls the panel towards a control: with the wheel while it is far, then with a finger. */
async function pullPanel(phone, found) {
  const x = found.whole[0] + 20, middle = 0.72 * phone.page.viewportSize().height;
  const way = middle - (found.whole[1] + found.whole[3]) / 2;
  if (Math.abs(way) < 150) return drag(phone, [x, middle], [x, middle + clamp(way, 130)], 8);
  await wheel(phone, [x, middle], [0, -0.7 * way]);
}

/** Scrolls panel or row until the control is in sight. */
export async function reveal(phone, name) {
  for (let i = 0; i < 30; ++i) {
    const found = await control(phone, name);
    if (inSight(found)) return found;
    if (!name.startsWith('section.')) await pullPanel(phone, found);
    else await pullRow(phone, found, (await state(phone)).controls.find(c => c.name.startsWith('section.') && inSight(c)).rect);
  }
  throw new Error(`"${name}" does not come into sight`);
}

export async function tap(phone, name) {
  const { rect } = await reveal(phone, name);
  await phone.page.touchscreen.tap(...middle(rect));
  await settle(phone);
}

/** Drags a slider's thumb from where its value is to a share of its length. */
export async function slide(phone, name, to, from = 0.5) {
  const { rect: [l, t, r, b] } = await reveal(phone, name);
  const x = share => l + 14 + (r - l - 28) * share, y = (t + b) / 2;
  await drag(phone, [x(from), y], [x(to), y]);
}

/** Types a number on the app's own pad. */
export async function typeNumber(phone, name, digits) {
  await tap(phone, name);
  for (const key of digits) await tap(phone, key === '-' ? 'pad.sign' : `pad.${key}`);
  await tap(phone, 'pad.set');
}

export async function shoot(phone, name) {
  mkdirSync(artifacts, { recursive: true });
  await settle(phone);
  await phone.page.screenshot({ path: join(artifacts, `${name}.png`) });
}

/** The screen as it is: width, height, and four bytes a pixel. */
export async function picture(phone) {
  const png = (await phone.page.screenshot()).toString('base64');
  const { width, height, rgba } = await phone.page.evaluate(async text => {
    const bytes = Uint8Array.from(atob(text), c => c.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const copy = new OffscreenCanvas(image.width, image.height).getContext('2d');
    copy.drawImage(image, 0, 0);
    const data = copy.getImageData(0, 0, image.width, image.height).data;
    let binary = '';
    for (let i = 0; i < data.length; i += 32768) binary += String.fromCharCode(...data.subarray(i, i + 32768));
    return { width: image.width, height: image.height, rgba: btoa(binary) };
  }, png);
  return { width, height, rgba: new Uint8ClampedArray(Buffer.from(rgba, 'base64')) };
}
