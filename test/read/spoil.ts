// Ways to spoil a file, for the fuzz test: every seed gives one file.

export type Random = (below: number) => number;

/** A small seeded generator (mulberry32, public domain): whole numbers below a bound. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

function join(...parts: Uint8Array[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts));
}

const ascii = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));

/** Ways to spoil a file. */
const mutations: ((bytes: Uint8Array, random: Random, other: Uint8Array) => Uint8Array)[] = [
  // Cut off at the end, at the beginning, in the middle.
  (bytes, random) => bytes.slice(0, random(bytes.length + 1)),
  (bytes, random) => bytes.slice(random(bytes.length + 1)),
  (bytes, random) => {
    const from = random(bytes.length + 1);
    return join(bytes.slice(0, from), bytes.slice(from + random(bytes.length - from + 1)));
  },
  // Splice another file in, or a part of this one again.
  (bytes, random, other) => {
    const at = random(bytes.length + 1);
    return join(bytes.slice(0, at), other.slice(random(other.length + 1)), bytes.slice(at));
  },
  (bytes, random) => {
    const from = random(bytes.length + 1);
    const part = bytes.slice(from, from + random(400));
    const at = random(bytes.length + 1);
    return join(bytes.slice(0, at), part, bytes.slice(at));
  },
  // Flip some bytes; set some to special ones.
  (bytes, random) => {
    const changed = bytes.slice();
    for (let i = random(20) + 1; i > 0; i--) changed[random(bytes.length)] = random(256);
    return changed;
  },
  (bytes, random) => {
    const changed = bytes.slice();
    const special = ascii('\0\t\n\r ";,.|-+eE:#%/\x1a\xff\xfe');
    for (let i = random(12) + 1; i > 0; i--) changed[random(bytes.length)] = special[random(special.length)]!;
    return changed;
  },
  // One byte for another everywhere: another delimiter, another decimal mark.
  (bytes, random) => {
    const marks = ascii('\t;,. |\n\r-e1\0"');
    const [from, to] = [marks[random(marks.length)]!, marks[random(marks.length)]!];
    return bytes.map((byte) => (byte === from ? to : byte));
  },
  // Huge lines, deep quotes, runs of NUL, floods of delimiters or digits.
  (bytes, random) => {
    const at = random(bytes.length + 1);
    const floods = ["x", '"', "\0", ";", "\t", ",", "9", "1 ", "-", "(", "[", "\n", "\r", "e", "1:", '""', "=", "' "];
    const flood = floods[random(floods.length)]!.repeat(random(30_000));
    return join(bytes.slice(0, at), ascii(flood), bytes.slice(at));
  },
  // The whole again and again.
  (bytes, random) => join(...Array.from({ length: 2 + random(4) }, () => bytes)),
  // Digits go astray: points and signs move.
  (bytes, random) => {
    const changed = bytes.slice();
    for (let i = random(8) + 1; i > 0; i--) {
      const at = random(bytes.length - 1);
      [changed[at], changed[at + 1]] = [changed[at + 1]!, changed[at]!];
    }
    return changed;
  },
];

/** The spoilt file of a seed: one of the files, changed in one to three ways, at most 1 MB. */
export function spoil(files: Uint8Array[], seed: number): Uint8Array {
  const random = seeded(seed);
  let bytes = files[random(files.length)]!;
  for (let i = random(3) + 1; i > 0; i--) {
    if (bytes.length > 1) bytes = mutations[random(mutations.length)]!(bytes, random, files[random(files.length)]!);
    if (bytes.length > 1e6) bytes = bytes.slice(0, 1e6);
  }
  return bytes;
}
