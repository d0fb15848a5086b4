// Whether the estimate from the command alone can be trusted: the precise estimate that noise may bias, against the coarse one
// that steady noise does not (J.A. Hausman, "Specification tests in econometrics", Econometrica 46, 1978; from memory).
import { at } from "../base/at.js";

import { type LineEstimate, type Pair, smoothed, square } from "./line-estimate.js";

interface Erring extends LineEstimate {
  readonly whole: number;
}

/** Deviations beyond which the two contradict each other. */
const BEYOND = 2;
/** Lines that are one, by the likeness of neighbours. */
const PER_INDEPENDENT = 2;

export interface Judgement<L> {
  readonly contradicted: boolean;
  /** Of the coarse estimate where it contradicts; else the precise one's, their errors widened by how far both lie apart. */
  readonly lines: readonly L[];
}

/** Of the same lines; without noise their squared distance has the difference of the two variances (of both parts) as its mean. */
export function against<L extends Erring>(precise: readonly L[], coarse: readonly L[]): Judgement<L> {
  const distances = precise.map((line, k) => share(line.value, at(coarse, k).value));
  const ratios = precise.flatMap((line, k) => {
    const other = at(coarse, k);
    const expected = 2 * (other.error ** 2 - line.error ** 2);
    const telling = line.coherence >= 0.5 && other.error < 0.5 && expected > 0;
    return telling ? [square(at(distances, k)) / expected] : [];
  });
  const average = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
  // Each ratio is exponentially distributed: mean and deviation 1.
  const contradicted = average > 1 + BEYOND * Math.sqrt(PER_INDEPENDENT / ratios.length);
  if (contradicted) return { contradicted, lines: coarse };
  // A bias changes slowly with frequency, chance does not: neighbours are averaged before the square.
  const [re, im] = [smoothed(distances.map(([a]) => a)), smoothed(distances.map(([, b]) => b))];
  const lines = precise.map((line, k) => {
    const apart = (at(re, k) ** 2 + at(im, k) ** 2) / 2;
    return { ...line, whole: Math.sqrt(line.whole ** 2 + apart) };
  });
  return { contradicted, lines };
}

/** How far the other lies away, as a complex share of the one. */
function share([a, b]: Pair, [c, d]: Pair): Pair {
  const size = a * a + b * b;
  return [((c - a) * a + (d - b) * b) / size, ((d - b) * a - (c - a) * b) / size];
}
