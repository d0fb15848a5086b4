// A grid made denser where a response turns too sharply for the interpolation of this room: near a lightly damped
// resonance of the axes that are held.
import { between } from "./crossing.js";
import { type ComplexArray, complexArray } from "./frequency.js";
import { oncePer } from "./once.js";

export type Response = (frequencies: Float64Array) => ComplexArray;

export interface Sampled {
  readonly frequencies: Float64Array;
  readonly values: ComplexArray;
}

const TOLERANCE = 1e-7; // of the response's size, between grid points
const ROUNDS = 14; // of halving: a step of 3 % becomes one of 2e-6

/** Points after which no more are added: a resonance takes some dozens, a response lost in rounding would never have enough. */
const MOST_POINTS = 4_000;

/** The same array for every loop on a grid, so that what is computed there can be shared. */
const allMiddles = oncePer((grid: Float64Array) => {
  const middles = new Float64Array(grid.length - 1);
  for (let k = 0; k < middles.length; k++) middles[k] = 0.5 * (grid[k] + grid[k + 1]);
  return middles;
});

/** Halves each step at whose middle the interpolated response is off, until none is. */
export function refined(grid: Float64Array, respond: Response): Sampled {
  let sampled: Sampled = { frequencies: grid, values: respond(grid) };
  let open = Array.from({ length: grid.length - 1 }, (_, k) => k);
  for (let round = 0; round < ROUNDS && open.length > 0 && sampled.frequencies.length < MOST_POINTS; round++) {
    const { frequencies } = sampled;
    const middles =
      round === 0 ? allMiddles(grid) : Float64Array.from(open, (k) => 0.5 * (frequencies[k] + frequencies[k + 1]));
    const exact = respond(middles);
    const off = open.map((_, n) => n).filter((n) => isOff(sampled, open[n], exact.re[n], exact.im[n]));
    sampled = inserted(
      sampled,
      off.map((n) => ({ after: open[n], w: middles[n], re: exact.re[n], im: exact.im[n] })),
    );
    // Each insertion shifts the steps after it by one and leaves two halves to check.
    open = off.flatMap((n, before) => [open[n] + before, open[n] + before + 1]);
  }
  return sampled;
}

function isOff({ frequencies, values }: Sampled, k: number, re: number, im: number): boolean {
  const x = between(frequencies, values.re, k)(0.5) - re;
  const y = between(frequencies, values.im, k)(0.5) - im;
  return x * x + y * y > TOLERANCE * TOLERANCE * (re * re + im * im);
}

interface Point {
  readonly after: number;
  readonly w: number;
  readonly re: number;
  readonly im: number;
}

function inserted({ frequencies, values }: Sampled, points: readonly Point[]): Sampled {
  if (points.length === 0) return { frequencies, values };
  const count = frequencies.length + points.length;
  const [grown, out] = [new Float64Array(count), complexArray(count)];
  let next = 0;
  for (let k = 0; k < frequencies.length; k++) {
    [grown[k + next], out.re[k + next], out.im[k + next]] = [frequencies[k], values.re[k], values.im[k]];
    if (points[next]?.after !== k) continue;
    const { w, re, im } = points[next];
    next++;
    [grown[k + next], out.re[k + next], out.im[k + next]] = [w, re, im];
  }
  return { frequencies: grown, values: out };
}
