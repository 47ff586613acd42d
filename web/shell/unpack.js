// A program of WebAssembly mixes operations, numbers of locals, offsets and constants, and a compressor cannot tell them
// apart. So it travels with each kind in a stream of its own (packed.wasm, made by pack.mjs), a tenth smaller when compressed,
// and is put together again here, in a few hundredths of a second. The binary format: WebAssembly core specification, 5.4.
const kStreams = 'HolacnbsiNfFtTxgE';   // head, operations, locals, offsets... as below; E: what follows the code
// What follows each operation, by its code: . nothing, t a type, b a branch, T a table of branches, c a function, i a type of
// function and a zero, l a local, g a global, 0 to 3 an alignment, as a rule this, and an offset (a), z a zero, n N constants
// of 32 and 64 bits, f F with a point. 0xfc comes before a second code (x).
const kOperands = '..ttt.......bbT.ci..............lllgg...23230011001122232301012zznNfF'.padEnd(0xfc, '.') + 'x';
const kAlignment = 0xe0;   // no operation: another alignment than the rule's for the next one, in its last two bits

/** The program's bytes. */
function unpack(packed) {
  let at = 0, to = 0;
  const number = () => {
    for (let value = 0, shift = 0; ; shift += 7) {
      const byte = packed[at++];
      value |= (byte & 127) << shift;
      if (byte < 128) return value;
    }
  };
  const program = new Uint8Array(number()), codeSize = number(), functions = number(), cursors = {};
  const sizes = [...kStreams].map(number);
  sizes.forEach((size, i) => { cursors[kStreams[i]] = at; at += size; });

  const byte = stream => program[to++] = packed[cursors[stream]++];
  const bytes = (stream, count) => { while (count--) byte(stream); };
  const leb = stream => {
    for (let value = 0, shift = 0; ; shift += 7) {
      const next = byte(stream);
      value |= (next & 127) << shift;
      if (next < 128) return value;
    }
  };
  const put = value => { for (; value > 127; value >>>= 7) program[to++] = value & 127 | 128; program[to++] = value; };

  const operands = {
    '.': () => {}, z: () => put(0), t: () => byte('t'), f: () => bytes('f', 4), F: () => bytes('F', 8),
    T: () => { for (let left = leb('T'); left >= 0; left--) leb('T'); },
    i: () => { leb('i'); put(0); },
    x: () => { for (let zeros = { 10: 2, 11: 1 }[leb('x')] ?? 0; zeros--;) put(0); },   // memory.copy, memory.fill: of memory 0
  };
  for (const stream of 'bclgnN') operands[stream] = () => leb(stream);
  const table = [...kOperands].map(kind => operands[kind] ?? null);

  function functionBody() {
    const start = to;
    for (let groups = leb('s'); groups--;) { leb('s'); byte('s'); }
    for (let depth = 1; depth;) {
      let code = packed[cursors.o++], alignment = kOperands[code];
      if (code >= kAlignment && code < kAlignment + 4) {
        alignment = code - kAlignment;
        code = packed[cursors.o++];
      }
      program[to++] = code;
      if (code >= 0x02 && code <= 0x04) depth++;
      if (code === 0x0b) depth--;
      const operand = table[code];
      if (operand === undefined) continue;
      if (operand) operand();
      else { program[to++] = alignment; leb('a'); }
    }
    const size = to - start, room = size < 1 << 7 ? 1 : size < 1 << 14 ? 2 : size < 1 << 21 ? 3 : 4;
    program.copyWithin(start + room, start, to);
    to = start;
    put(size);
    to += size;
  }

  bytes('H', sizes[0]);
  put(10);
  put(codeSize);
  put(functions);
  for (let left = functions; left--;) functionBody();
  bytes('E', sizes.at(-1));
  return program;
}
