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
  const { factors, order, turn } = tablesOf(x.re.length);
  let from = empty(order.length);
  for (let k = 0; k < order.length; k++) {
    const place = order[k] ?? 0;
    from.re[k] = numberAt(x.re, place);
    from.im[k] = numberAt(x.im, place);
  }
  let to = empty(order.length);
  let each = 1;
  for (const parts of factors.toReversed()) {
    joinParts(from, to, each, parts, turn);
    each *= parts;
    [from, to] = [to, from];
  }
  return from;
}

export const empty = (length: number): Complex => ({ re: new Float64Array(length), im: new Float64Array(length) });

/** What transforms of one length share. */
interface Tables {
  /** Into how many parts each level divides what it is given: the whole first. */
  readonly factors: readonly number[];
  /** Which sample stands at each place once all levels have divided. */
  readonly order: Uint32Array;
  /** exp(2 pi i k / N). */
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
  const factors = factorsOf(length);
  const [oldest] = tables.keys();
  if (tables.size >= LENGTHS && oldest !== undefined) tables.delete(oldest);
  const found = { factors, order: orderOf(length, factors), turn };
  tables.set(length, found);
  return found;
}

function factorsOf(length: number): number[] {
  const factors: number[] = [];
  for (let rest = length; rest > 1; rest /= leastFactor(rest)) factors.push(leastFactor(rest));
  return factors;
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

/** Joins every `parts` neighbouring transforms of `each` samples to one, each repeated and turned by its place in the whole. */
function joinParts(from: Complex, to: Complex, each: number, parts: number, turn: Complex): void {
  const { re: fromRe, im: fromIm } = from;
  const { re: turnRe, im: turnIm } = turn;
  const [circle, size] = [turnRe.length, parts * each];
  const stride = circle / size;
  for (let block = 0; block < circle; block += size) {
    let first = block;
    for (let k = 0; k < size; k++) {
      const places = k * stride;
      let [re, im] = [0, 0];
      let by = 0;
      for (let place = first; place < block + size; place += each) {
        const a = numberAt(fromRe, place);
        const b = numberAt(fromIm, place);
        const c = numberAt(turnRe, by);
        const s = numberAt(turnIm, by);
        re += a * c - b * s;
        im += a * s + b * c;
        by += places;
        if (by >= circle) by -= circle;
      }
      to.re[block + k] = re;
      to.im[block + k] = im;
      if (++first === block + each) first = block;
    }
  }
}

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
