// Parts the program in two: what the first picture needs, and the rest, which the page fetches while that is being looked at.
// The rest are the functions that later.txt names and whatever only they call. wasm-split (Binaryen) does the cutting: in the first
// part a placeholder stands for each function that went, imported from `later` under the number of its place in the table of
// functions; when the rest is instantiated, with the first part's exports as `first`, it takes those places itself.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { numberBytes, Packer } from './pack.mjs';

const kFeatures = ['bulk-memory', 'sign-ext', 'nontrapping-float-to-int', 'mutable-globals'];

/** What is to be known of the functions, by their numbers: how many are imported, whom each calls, who can be called from outside. */
class Reader extends Packer {
  constructor(program) {
    super(program);
    this.imported = 0;
    this.outside = [];
    this.calls = [];
    for (const section = { 2: () => this.imports(), 7: () => this.exports(), 9: () => this.elements(), 10: () => this.code() }; this.at < program.length;) {
      const id = this.program[this.at++], end = this.leb() + this.at;
      section[id]?.();
      this.at = end;
    }
  }
  name() { this.at = this.leb() + this.at; }
  limits() { for (let left = 1 + (this.leb() & 1); left--;) this.leb(); }
  imports() {
    for (let left = this.leb(); left--;) {
      this.name();
      this.name();
      const kind = this.program[this.at++];
      if (kind === 0) { this.leb(); this.imported++; }
      if (kind === 1) { this.at++; this.limits(); }
      if (kind === 2) this.limits();
      if (kind === 3) this.at += 2;
    }
  }
  exports() {
    for (let left = this.leb(); left--;) {
      this.name();
      const kind = this.program[this.at++], number = this.leb();
      if (kind === 0) this.outside.push(number);
    }
  }
  elements() {
    for (let left = this.leb(); left--;) {
      if (this.leb() !== 0 || this.program[this.at++] !== 0x41) throw new Error('a table filled in another way than at one place from the start');
      this.leb();
      this.at++;
      for (let functions = this.leb(); functions--;) this.outside.push(this.leb());
    }
  }
  code() {
    for (let left = this.leb(); left--;) {
      this.calls.push(new Set());
      this.functionBody();
    }
  }
  leb(stream) {
    const value = super.leb(stream);
    if (stream === 'c') this.calls.at(-1).add(value);
    return value;
  }
}

/** Numbers of the functions that can wait. `names`: of all, imported ones too; `later`: what those that can wait are called. */
function canWait({ imported, outside, calls }, names, later) {
  const named = names.map(name => later.test(name)), needed = new Set(), open = outside.filter(f => !named[f]);
  for (let f; (f = open.pop()) !== undefined;) {
    if (needed.has(f) || f < imported) continue;
    needed.add(f);
    open.push(...[...calls[f - imported]].filter(called => !named[called]));
  }
  return calls.map((_, i) => i + imported).filter(f => !needed.has(f));
}

/** The program with its functions called f0, f1...: a name section at its end. */
function numbered(program, count) {
  const names = Array.from({ length: count }, (_, i) => [...numberBytes(i), ...numberBytes(`f${i}`.length), ...Buffer.from(`f${i}`)]);
  const map = [...numberBytes(count), ...names.flat()];
  const section = [4, ...Buffer.from('name'), 1, ...numberBytes(map.length), ...map];
  return Buffer.concat([program, Buffer.from([0, ...numberBytes(section.length), ...section])]);
}

/** What functions are called, without their parameters, from the linker's list: NUMBER:NAME a line, signs as \XX. */
const namesIn = symbols => symbols.trim().split('\n').map(line => line.slice(line.indexOf(':') + 1)
  .replace(/\\(..)/g, (_, hex) => String.fromCharCode(parseInt(hex, 16))).replaceAll('(anonymous namespace)', '').split('(')[0]);

/** [first, rest]: both programs. `symbols`: the linker's list; `list`: later.txt. */
export function part(program, symbols, list) {
  const patterns = list.split('\n').filter(line => line && !line.startsWith('#'));
  const names = namesIn(symbols);
  for (const pattern of patterns) if (!names.some(name => new RegExp(pattern).test(name))) throw new Error(`later.txt: no function is called ${pattern}`);
  const reader = new Reader(program), waiting = canWait(reader, names, new RegExp(patterns.join('|')));
  const folder = mkdtempSync(join(tmpdir(), 'part-')), file = name => join(folder, name);
  try {
    writeFileSync(file('whole.wasm'), numbered(program, names.length));
    writeFileSync(file('waiting'), waiting.map(f => `f${f}`).join('\n'));
    execFileSync('wasm-split', [...kFeatures.map(f => `--enable-${f}`), '--split', `--split-funcs=@${file('waiting')}`, '--export-prefix=%',
      '--import-namespace=first', '--placeholder-namespace=later', file('whole.wasm'), '-o1', file('first.wasm'), '-o2', file('rest.wasm')]);
    return ['first.wasm', 'rest.wasm'].map(name => readFileSync(file(name)));
  } finally {
    rmSync(folder, { recursive: true });
  }
}
