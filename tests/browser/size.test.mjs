// What the first visit loads, compressed as a web server would (brotli, quality 11): the pond has a weak signal.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { brotliCompressSync, constants } from 'node:zlib';

const site = process.env.PONDTRIM_SITE;
const kBrotli = { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24 } };
const compressed = name => brotliCompressSync(readFileSync(join(site, name)), kBrotli).length;
const total = names => names.reduce((sum, name) => sum + compressed(name), 0);

// Goes down with each thing that makes the app smaller; DEVELOPERS.md says what bought what. The aim is 400,000. Hulls
// drawn elsewhere (reading, checking, thinning, their page and simpler ones for links) last added 20,000;
// small pictures beside the numbers and the boat that is being described 2,500.
const kAppLimit = 466500;
const kFirst = ['index.html', 'index.js', 'packed.wasm', 'operations.wasm'];   // presets are in the program
const kApp = [...kFirst, 'rest.wasm', 'rest-operations.wasm'];

test('what comes before the first picture is within 400,000 bytes', t => {
  const bytes = total(kFirst);
  t.diagnostic(`${bytes} bytes`);
  assert.ok(bytes <= 400000, `${bytes} bytes`);
});

test('page, script and program stay small enough for a weak signal', t => {
  const bytes = total(kApp);
  t.diagnostic(kApp.map(name => `${name} ${compressed(name)}`).join(', '));
  assert.ok(bytes <= kAppLimit, `${bytes} bytes; the limit is ${kAppLimit}`);
});

test('what is kept beside them for a start without a signal is icons, the worker and the page about trust', () => {
  const beside = readdirSync(site).filter(name => !kApp.includes(name));
  const bytes = total(beside);
  assert.ok(bytes <= 27000, `${bytes} bytes in ${beside.join(', ')}`);
});
