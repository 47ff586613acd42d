// A program of WebAssembly mixes operations, numbers of locals, offsets and constants, and a compressor cannot tell them
// apart. So it travels with each kind in a stream of its own, a tenth smaller when compressed: the operations in one file
// (operations.wasm), all else in another (packed.wasm), as one compressor is not good at both; pack.mjs makes them. It is put
// together again here, in a few hundredths of a second. The binary format: WebAssembly core specification, 5.4.
const kStreams = 'HlacnbsiNfFtTxgE';   // head, locals, offsets... as below; E: what follows the code
// What follows each operation, by its code: . nothing, t a type, b a branch, T a table of branches, c a function, i a type of
// function and a zero, l a local, g a global, 0 to 3 an alignment, as a rule this, and an offset (a), z a zero, n N constants
// of 32 and 64 bits, f F with a point. 0xfc comes before a second code (x).
const kOperands = '..ttt.......bbT.ci..............lllgg...23230011001122232301012zznNfF'.padEnd(0xfc, '.') + 'x';
const kAlignment = 0xe0;   // no operation: another alignment than the rule's for the next one, in its last two bits

/** The program's bytes. Throws when the files are not whole. */
function unpack([packed, operations]) {
  let at = 0, to = 0, step = 0;
  const number = () => {
    for (let value = 0, shift = 0; ; shift += 7) {
      if (at === packed.length) throw new Error('cut short');
      const byte = packed[at++];
      value |= (byte & 127) << shift;
      if (byte < 128) return value;
    }
  };
  const program = new Uint8Array(number()), codeSize = number(), functions = number(), steps = number();
  const sizes = [...kStreams].map(number), cursors = new Uint32Array(sizes.length);
  sizes.forEach((size, i) => { cursors[i] = at; at += size; });
  if (at !== packed.length || steps !== operations.length) throw new Error('cut short');
  const streamOf = letter => kStreams.indexOf(letter);
  const [locals, alignments] = [...'sa'].map(streamOf);

  const byte = stream => { program[to++] = packed[cursors[stream]++]; };
  const bytes = (letter, count) => { while (count--) byte(streamOf(letter)); };
  const leb = stream => {
    let value = 0, shift = 0, next, from = cursors[stream];
    do {
      next = program[to++] = packed[from++];
      value |= (next & 127) << shift;
      shift += 7;
    } while (next > 127);
    cursors[stream] = from;
    return value;
  };
  const put = value => { for (; value > 127; value >>>= 7) program[to++] = value & 127 | 128; program[to++] = value; };

  const others = {
    z: () => put(0), t: () => byte(streamOf('t')), f: () => bytes('f', 4), F: () => bytes('F', 8),
    T: () => { for (let left = leb(streamOf('T')); left >= 0; left--) leb(streamOf('T')); },
    i: () => { leb(streamOf('i')); put(0); },
    x: () => { for (let zeros = { 10: 2, 11: 1 }[leb(streamOf('x'))] ?? 0; zeros--;) put(0); },   // memory.copy, memory.fill: of memory 0
  };
  const kMemory = 100, kOther = 101;   // else 0: nothing, or one more than the stream of a number
  const usual = Uint8Array.from(kOperands, Number);   // alignments; nonsense elsewhere
  const kinds = Uint8Array.from(kOperands, kind =>
    kind === '.' ? 0 : others[kind] ? kOther : kind <= '3' ? kMemory : streamOf(kind) + 1);

  function functionBody() {
    const start = to;
    for (let groups = leb(locals); groups--;) { leb(locals); byte(locals); }
    for (let depth = 1; depth;) {
      let code = operations[step++], alignment = usual[code];
      if (code >= kAlignment && code < kAlignment + 4) {
        alignment = code - kAlignment;
        code = operations[step++];
      }
      program[to++] = code;
      if (code >= 0x02 && code <= 0x04) depth++;
      if (code === 0x0b) depth--;
      const kind = kinds[code];
      if (kind === kMemory) {
        program[to++] = alignment;
        leb(alignments);
      } else if (kind === kOther) {
        others[kOperands[code]]();
      } else if (kind) {
        leb(kind - 1);
      }
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
