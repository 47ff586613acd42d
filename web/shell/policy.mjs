// Puts the page's Content-Security-Policy into the built page: nothing but our own files, and of inline script and style
// only what the page was built with, by its hash. Nothing on the page may reach another origin, or be made from text.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';

const [file] = process.argv.slice(2);
const page = readFileSync(file, 'utf8');
const hashes = tag => [...page.matchAll(new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`, 'g'))]
  .map(([, text]) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`);
const policy = [
  "default-src 'none'",
  `script-src 'self' 'wasm-unsafe-eval' ${hashes('script').join(' ')}`,
  `style-src ${hashes('style').join(' ')}`,
  "connect-src 'self'", "img-src 'self'", "manifest-src 'self'", "worker-src 'self'",
  "base-uri 'none'", "form-action 'none'",
].join('; ');
const sealed = page.replace('@POLICY@', policy);
if (sealed !== page) writeFileSync(file, sealed);
else if (!page.includes(policy)) throw new Error(`${file} has no place for its policy, or an old one`);
