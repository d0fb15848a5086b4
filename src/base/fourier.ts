// The discrete Fourier transform of any length, in plain arithmetic on our own sines: the same bits on every engine.
// Cooley and Tukey, Math. Comp. 19 (1965), by the least prime factor of the length at each level.
import { numberAt } from "./at.js";
import { cos, sin } from "./elementary.js";

/** Real and imaginary parts. */
export interface Complex {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** X[k] = sum over n of x[n] exp(2 pi i k n / N), unscaled. Takes N times the sum of N's prime factors. */
export function fourier(x: Complex): Complex {
  const length = x.re.length;
  const turn = empty(length);
  for (let k = 0; k < length; k++) {
    const angle = (2 * Math.PI * k) / length;
    turn.re[k] = cos(angle);
    turn.im[k] = sin(angle);
  }
  return transformed(x, 0, 1, length, turn);
}

export const empty = (length: number): Complex => ({ re: new Float64Array(length), im: new Float64Array(length) });

/** The transform of so many samples from `first`, every `stride`-th; `turn` holds exp(2 pi i k / N) of the whole. */
function transformed(x: Complex, first: number, stride: number, length: number, turn: Complex): Complex {
  if (length === 1) return { re: x.re.slice(first, first + 1), im: x.im.slice(first, first + 1) };
  const parts = leastFactor(length);
  const each = length / parts;
  const out = empty(length);
  for (let r = 0; r < parts; r++) {
    const sub = transformed(x, first + r * stride, stride * parts, each, turn);
    addTurned(sub, r * stride, turn, out);
  }
  return out;
}

/** Adds a shorter transform, repeated over all of `out`, each sample turned by so many places more than the one before. */
function addTurned(sub: Complex, places: number, turn: Complex, out: Complex): void {
  const { re, im } = sub;
  const { re: turnRe, im: turnIm } = turn;
  const { re: outRe, im: outIm } = out;
  const [each, circle, length] = [re.length, turnRe.length, outRe.length];
  // Places in the shorter transform and among the turns, counted along: both come round.
  let from = 0;
  let by = 0;
  for (let k = 0; k < length; k++) {
    const a = numberAt(re, from);
    const b = numberAt(im, from);
    const c = numberAt(turnRe, by);
    const s = numberAt(turnIm, by);
    outRe[k] = numberAt(outRe, k) + (a * c - b * s);
    outIm[k] = numberAt(outIm, k) + (a * s + b * c);
    if (++from === each) from = 0;
    by += places;
    if (by >= circle) by -= circle;
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
