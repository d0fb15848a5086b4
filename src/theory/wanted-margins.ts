// Whether a loop has the margins that are asked for, at many gains: one pass over the frequencies each, straight lines
// between them. Errors of the margins are those of the coarse grid, below 0.05 dB and 0.3 degrees.
import type { AxisGains } from "../airframe/airframe.js";
import { cos, exp } from "../base/elementary.js";
import type { LoopPieces } from "./pieces.js";

export interface WantedMargins {
  readonly gain: number; // dB
  readonly phase: number; // rad
}

/**
 * Makes the test of one loop: whether gain may rise and fall by the wanted factor and the wanted phase be lost or gained
 * before the loop is unstable, and whether it is stable at all.
 */
export function marginTest(pieces: LoopPieces, wanted: WantedMargins): (gains: AxisGains) => boolean {
  const { a, b, c, closes } = pieces;
  const count = a.re.length;
  const up = exp((-wanted.gain * Math.LN10) / 20);
  const down = 1 / up;
  const nearest = -cos(wanted.phase);
  return ({ p, i, d }) => {
    let around = pieces.unstable;
    let re = p * a.re[0] + d * b.re[0] + i * c.re[0];
    let im = p * a.im[0] + d * b.im[0] + i * c.im[0];
    if (re < 0 && im > 0) around += 2;
    for (let k = 1; k < count; k++) {
      const nextRe = p * a.re[k] + d * b.re[k] + i * c.re[k];
      const last = closes && k === count - 1;
      const nextIm = last ? 0 : p * a.im[k] + d * b.im[k] + i * c.im[k];
      if (last) {
        // Real at half the sampling rate, where it meets its mirror image.
        if (nextRe < -up && nextRe > -down) return false;
        if (nextRe < -1) around += im < 0 ? 1 : -1;
      } else if (im < 0 !== nextIm < 0) {
        const share = im / (im - nextIm);
        const crossing = re + share * (nextRe - re);
        if (crossing < 0) {
          if (crossing < -up && crossing > -down) return false;
          if (crossing < -1) around += nextIm >= 0 ? 2 : -2;
        }
      }
      const [before, after] = [re * re + im * im, nextRe * nextRe + nextIm * nextIm];
      if (before < 1 !== after < 1) {
        const share = (1 - before) / (after - before);
        if (re + share * (nextRe - re) < nearest) return false;
      }
      re = nextRe;
      im = nextIm;
    }
    return around === 0;
  };
}
