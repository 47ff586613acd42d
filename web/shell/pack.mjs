// Packs a program of WebAssembly for the way to the phone: what and why is said in unpack.js, which puts it together again.
import { readFileSync } from 'node:fs';
import { runInNewContext } from 'node:vm';

const source = readFileSync(new URL('unpack.js', import.meta.url), 'utf8');
const { kStreams, kOperands, kAlignment, unpack } = runInNewContext(`${source}; ({ kStreams, kOperands, kAlignment, unpack })`, { Uint8Array });

export function numberBytes(value) {
  const bytes = [];
  for (; value > 127; value >>>= 7) bytes.push(value & 127 | 128);
  return [...bytes, value];
}

export class Packer {
  constructor(program) {
    this.program = program;
    this.at = 8;   // behind the magic word and the version
    this.streams = Object.fromEntries([...kStreams].map(stream => [stream, []]));
    this.operations = [];
  }
  byte(stream) { this.streams[stream].push(this.program[this.at++]); }
  bytes(stream, count) { while (count--) this.byte(stream); }
  skip(count) { this.at += count; }
  /** A number in LEB128, unsigned; kept in `stream` if there is one. */
  leb(stream) {
    for (let value = 0, shift = 0; ; shift += 7) {
      const byte = this.program[this.at++];
      if (byte === undefined) throw new Error('the program ends within a number');
      if (stream) this.streams[stream].push(byte);
      value |= (byte & 127) << shift;
      if (byte < 128) return value;
    }
  }
  /** Everything before the code goes into the head; leaves `at` at the code. Returns its size. */
  findCode() {
    for (;;) {
      const id = this.program[this.at++], size = this.leb();
      if (id === 10) return size;
      this.at += size;
    }
  }
  operand(code) {
    const kind = kOperands[code] ?? '.';
    switch (kind) {
      case '.': return;
      case 'z': return this.skip(1);
      case 't': return this.byte('t');
      case 'f': return this.bytes('f', 4);
      case 'F': return this.bytes('F', 8);
      case 'T': for (let left = this.leb('T'); left >= 0; left--) this.leb('T'); return;
      case 'i': this.leb('i'); return this.skip(1);
      case 'x': return this.skip({ 10: 2, 11: 1 }[this.leb('x')] ?? 0);
      default: return void this.leb(kind);
    }
  }
  operation() {
    const code = this.program[this.at++], kind = kOperands[code] ?? '.';
    if (kind >= '0' && kind <= '3') {
      const alignment = this.leb();
      if (alignment !== Number(kind)) this.operations.push(kAlignment + alignment);
      this.operations.push(code);
      this.leb('a');
    } else {
      this.operations.push(code);
      this.operand(code);
    }
  }
  functionBody() {
    const end = this.leb() + this.at;
    for (let groups = this.leb('s'); groups--;) { this.leb('s'); this.byte('s'); }
    while (this.at < end) this.operation();
  }
  pack() {
    const codeSize = this.findCode(), head = this.at - 1 - numberBytes(codeSize).length, end = this.at + codeSize;
    const functions = this.leb();
    for (let left = functions; left--;) this.functionBody();
    this.streams.H = [...this.program.subarray(0, head)];
    this.streams.E = [...this.program.subarray(end)];
    const sizes = [this.program.length, codeSize, functions, this.operations.length, ...[...kStreams].map(s => this.streams[s].length)];
    const packed = [sizes.flatMap(numberBytes), ...[...kStreams].map(s => this.streams[s])].map(part => Buffer.from(part));
    return [Buffer.concat(packed), Buffer.from(this.operations)];
  }
}

/** What becomes packed.wasm and operations.wasm. Throws when unpacking would not give back the same bytes. */
export function pack(program) {
  const packed = new Packer(program).pack();
  if (Buffer.compare(Buffer.from(unpack(packed)), program) !== 0) throw new Error('packing lost something of the program');
  return packed;
}
