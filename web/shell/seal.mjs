// The last step of the page's build: packs the program, minifies the scripts that were written beside the page and into it,
// then puts its Content-Security-Policy in. Nothing but our own files, and of inline script and style only what the page was built
// with, by its hash. Nothing on the page may reach another origin, or be made from text.
import { createHash } from 'node:crypto';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pack } from './pack.mjs';
import { part } from './part.mjs';

const { minify } = createRequire(import.meta.url)('terser');  // found through NODE_PATH: web/toolchain.sh

const kGlobals = ['Module', 'HEAPU8', 'addRunDependency', 'removeRunDependency'];   // of the glue, used by the page
const options = { ecma: 2020, compress: { passes: 3, ecma: 2020 }, mangle: true, format: { ecma: 2020, comments: false } };

const [pageFile] = process.argv.slice(2);
const page = readFileSync(pageFile, 'utf8');
if (!page.includes('@POLICY@')) process.exit();  // sealed already

const site = dirname(pageFile), built = ['index.wasm', 'index.html.symbols'];
const parts = part(readFileSync(join(site, built[0])), readFileSync(join(site, built[1]), 'utf8'),
  readFileSync(new URL('later.txt', import.meta.url), 'utf8'));
const kNames = ['packed.wasm', 'operations.wasm', 'rest.wasm', 'rest-operations.wasm'];   // as in index.html
parts.flatMap(pack).forEach((bytes, i) => writeFileSync(join(site, kNames[i]), bytes));
for (const name of built) renameSync(join(site, name), join(site, '..', name));   // for those who look into them

const glueFile = join(site, 'index.js');
const glue = await minify(readFileSync(glueFile, 'utf8'), {
  ...options, toplevel: true, mangle: { reserved: kGlobals }, compress: { ...options.compress, top_retain: kGlobals },
});
writeFileSync(glueFile, glue.code);

const unpack = readFileSync(new URL('unpack.js', import.meta.url), 'utf8');
let small = page;
for (const [whole, script] of page.matchAll(/<script>([\s\S]*?)<\/script>/g)) {
  const { code } = await minify(script.replace('/*@UNPACK@*/', () => unpack), options);
  small = small.replace(whole, () => `<script>${code}</script>`);
}
const hashes = tag => [...small.matchAll(new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`, 'g'))]
  .map(([, text]) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`);
const policy = [
  "default-src 'none'",
  `script-src 'self' 'wasm-unsafe-eval' ${hashes('script').join(' ')}`,
  `style-src ${hashes('style').join(' ')}`,
  "connect-src 'self'", "img-src 'self'", "manifest-src 'self'", "worker-src 'self'",
  "base-uri 'none'", "form-action 'none'",
].join('; ');
writeFileSync(pageFile, small.replace('@POLICY@', policy));
