// The discrete Fourier transform of any length, in plain arithmetic on our own sines: the same bits on every engine.
// Cooley and Tukey, Math. Comp. 19 (1965), by the least prime factor of the length at each level.
import { at, numberAt } from "./at.js";
import { cos, sin } from "./elementary.js";

/** Real and imaginary parts. */
export interface Complex {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** X[k] = sum over n of x[n] exp(2 pi i k n / N), unscaled. Takes N times the sum of N's prime factors. */
export function fourier(x: Complex): Complex {
  const { levels, order } = tablesOf(x.re.length);
  let from = empty(order.length);
  for (let k = 0; k < order.length; k++) {
    const place = order[k] ?? 0;
    from.re[k] = numberAt(x.re, place);
    from.im[k] = numberAt(x.im, place);
  }
  let to = empty(order.length);
  for (const level of levels) {
    join(from, to, level);
    [from, to] = [to, from];
  }
  return from;
}

export const empty = (length: number): Complex => ({ re: new Float64Array(length), im: new Float64Array(length) });

/** What transforms of one length share. */
interface Tables {
  readonly levels: readonly Level[];
  /** Which sample stands at each place once all levels have divided. */
  readonly order: Uint32Array;
}

/** Joins every `parts` neighbouring transforms of `each` samples to one. */
interface Level {
  readonly parts: number;
  readonly each: number;
  /** exp(2 pi i k / N), N being the length of what is joined. */
  readonly turn: Complex;
}

/** Of the lengths used last: those of a plan's scripts are few. */
const tables = new Map<number, Tables>();
const LENGTHS = 16;

function tablesOf(length: number): Tables {
  const made = tables.get(length);
  if (made !== undefined) return made;
  const turn = empty(length);
  for (let k = 0; k < length; k++) {
    const angle = (2 * Math.PI * k) / length;
    turn.re[k] = cos(angle);
    turn.im[k] = sin(angle);
  }
  // Into how many parts each level divides what it is given: the whole first.
  const factors = factorsOf(length);
  const [oldest] = tables.keys();
  if (tables.size >= LENGTHS && oldest !== undefined) tables.delete(oldest);
  const found = { levels: levelsOf(factors, turn), order: orderOf(length, factors) };
  tables.set(length, found);
  return found;
}

function factorsOf(length: number): number[] {
  const factors: number[] = [];
  for (let rest = length; rest > 1; rest /= leastFactor(rest)) factors.push(leastFactor(rest));
  return factors;
}

function levelsOf(factors: readonly number[], turn: Complex): Level[] {
  let each = 1;
  return factors.toReversed().map((parts) => {
    const size = parts * each;
    const every = turn.re.length / size;
    const of = (values: Float64Array) => values.filter((_, k) => k % every === 0);
    const level = { parts, each, turn: { re: of(turn.re), im: of(turn.im) } };
    each = size;
    return level;
  });
}

/** Every level deals its samples out to its parts in turn. */
function orderOf(length: number, factors: readonly number[]): Uint32Array {
  let order = Uint32Array.of(0);
  let stride = length;
  for (const parts of factors.toReversed()) {
    stride /= parts;
    const [shorter, step] = [order, stride];
    order = Uint32Array.from({ length: parts * shorter.length }, (_, place) => {
      const part = Math.floor(place / shorter.length);
      return at(shorter, place % shorter.length) + part * step;
    });
  }
  return order;
}

/** Each transform is repeated and turned by its place in the whole. Lengths in control periods have hardly any factors but 2 and 5. */
function join(from: Complex, to: Complex, level: Level): void {
  const joinAt = level.parts === 2 ? joinTwo : level.parts === 5 ? joinFive : joinAny;
  const size = level.turn.re.length;
  for (let block = 0; block < from.re.length; block += size)
    for (let j = 0; j < level.each; j++) joinAt(from, to, level, block, j);
}

/** Of a block, every number that the parts' numbers at one place, the same in each, go into. */
function joinAny(from: Complex, to: Complex, { parts, each, turn }: Level, block: number, j: number): void {
  const size = turn.re.length;
  for (let k = j; k < size; k += each) {
    let [re, im] = [0, 0];
    let by = 0;
    for (let part = 0; part < parts; part++) {
      const place = block + j + part * each;
      const a = numberAt(from.re, place);
      const b = numberAt(from.im, place);
      const c = numberAt(turn.re, by);
      const s = numberAt(turn.im, by);
      re += a * c - b * s;
      im += a * s + b * c;
      by = around(by + k, size);
    }
    to.re[block + k] = re;
    to.im[block + k] = im;
  }
}

/** As joinAny, with the same order of sums. */
function joinTwo(from: Complex, to: Complex, { each, turn }: Level, block: number, j: number): void {
  const size = turn.re.length;
  const place = block + j;
  const a0 = numberAt(from.re, place);
  const b0 = numberAt(from.im, place);
  const a1 = numberAt(from.re, place + each);
  const b1 = numberAt(from.im, place + each);
  for (let k = j; k < size; k += each) {
    const c = numberAt(turn.re, k);
    const s = numberAt(turn.im, k);
    to.re[block + k] = a0 + (a1 * c - b1 * s);
    to.im[block + k] = b0 + (a1 * s + b1 * c);
  }
}

/** As joinAny, with the same order of sums. */
function joinFive(from: Complex, to: Complex, { each, turn }: Level, block: number, j: number): void {
  const size = turn.re.length;
  const place = block + j;
  const a0 = numberAt(from.re, place);
  const b0 = numberAt(from.im, place);
  const a1 = numberAt(from.re, place + each);
  const b1 = numberAt(from.im, place + each);
  const a2 = numberAt(from.re, place + 2 * each);
  const b2 = numberAt(from.im, place + 2 * each);
  const a3 = numberAt(from.re, place + 3 * each);
  const b3 = numberAt(from.im, place + 3 * each);
  const a4 = numberAt(from.re, place + 4 * each);
  const b4 = numberAt(from.im, place + 4 * each);
  for (let k = j; k < size; k += each) {
    const twice = around(2 * k, size);
    const thrice = around(twice + k, size);
    const fourTimes = around(thrice + k, size);
    const c1 = numberAt(turn.re, k);
    const s1 = numberAt(turn.im, k);
    const c2 = numberAt(turn.re, twice);
    const s2 = numberAt(turn.im, twice);
    const c3 = numberAt(turn.re, thrice);
    const s3 = numberAt(turn.im, thrice);
    const c4 = numberAt(turn.re, fourTimes);
    const s4 = numberAt(turn.im, fourTimes);
    const re = a0 + (a1 * c1 - b1 * s1) + (a2 * c2 - b2 * s2) + (a3 * c3 - b3 * s3);
    const im = b0 + (a1 * s1 + b1 * c1) + (a2 * s2 + b2 * c2) + (a3 * s3 + b3 * c3);
    to.re[block + k] = re + (a4 * c4 - b4 * s4);
    to.im[block + k] = im + (a4 * s4 + b4 * c4);
  }
}

/** A place that is less than twice around the circle, on it. */
const around = (place: number, size: number): number => (place < size ? place : place - size);

const leastFactor = (n: number): number => {
  for (let f = 2; f * f <= n; f++) if (n % f === 0) return f;
  return n;
};

/** Largest prime factor that a length may have so that its transform takes no time to speak of. */
const SMOOTH = 31;

/** The least length from `length` on without a prime factor above 31: at most some thousandths longer. */
export function smoothLength(length: number): number {
  for (let n = Math.max(1, Math.ceil(length)); ; n++) {
    let rest = n;
    while (rest > 1 && leastFactor(rest) <= SMOOTH) rest /= leastFactor(rest);
    if (rest === 1) return n;
  }
}
