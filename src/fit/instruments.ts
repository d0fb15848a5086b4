// What a response is measured with: a signal that moves the command and does not come from the loop's own noise.
//
// Noise that comes back through the controller C makes of the plain ratio of rate to command, S_uy / S_uu, not the plant G but
// G - r (G + 1/C), where r is the noise's share of the command's power: without excitation -1/C, at full coherence (Ljung,
// System Identification; from memory). An instrument z that the noise does not move gives G = S_zy / S_zu (Soderstrom and
// Stoica, System Identification; from memory).
import { at } from "../base/at.js";
import type { Complex } from "../base/fourier.js";
import { type Pair, type Sample, smoothed, square } from "./line-estimate.js";
import type { Method } from "./response-estimate.js";
import { mean, type WindowSpectra } from "./windows.js";

/** What each window contributes at a line (an index of its spectra). */
export type SamplesAt = (index: number) => readonly Sample[];

export function samplesBy(method: Method, each: readonly WindowSpectra[], lines: readonly number[]): SamplesAt {
  const signs = method === "loud against quiet" ? contrast(each, lines) : null;
  return (index) =>
    each.map(({ command, rate, wanted }, window) => {
      const own = pairAt(command, index);
      const sign = signs === null ? 1 : at(signs, window);
      const asked = method === "commanded rate" && wanted !== null;
      const instrument: Pair = asked ? pairAt(wanted, index) : [sign * own[0], sign * own[1]];
      return { command: own, rate: pairAt(rate, index), instrument };
    });
}

const pairAt = ({ re, im }: Complex, index: number): Pair => [at(re, index), at(im, index)];

/**
 * The command itself, added up over the louder half of the windows and taken off over the quieter half: a disturbance that is
 * alike in both drops out of S_zu as of S_zy.
 */
function contrast(each: readonly WindowSpectra[], lines: readonly number[]): readonly number[] {
  const ranked = byLoudness(each, lines);
  const half = each.length / 2;
  return each.map((_, window) => {
    const place = ranked.indexOf(window);
    return place === Math.floor(half) && each.length % 2 === 1 ? 0 : place < half ? -1 : 1;
  });
}

/**
 * By how much noise may still have moved each line, as a share of its amplitude. The commanded rate is free of it. Loud
 * against quiet is not where the noise itself rises and falls: the quietest quarter's share of the command's power is 0.7 or
 * more in a loop that steady noise alone moves, whose lines this drops; where a pilot moves the sticks all the time it
 * is 0.1 to 0.4 (real logs), of which noise is a small part: hence the third power.
 */
export function leftOver(method: Method, each: readonly WindowSpectra[], lines: readonly number[]): readonly number[] {
  if (method === "commanded rate") return lines.map(() => 0);
  const quietest = byLoudness(each, lines).slice(0, Math.max(2, each.length >> 2));
  const power = (windows: readonly WindowSpectra[], index: number) =>
    mean(windows.map(({ command }) => square(pairAt(command, index))));
  const quiet = quietest.map((window) => at(each, window));
  const shares = lines.map((index) => power(quiet, index) / power(each, index));
  return smoothed(shares).map((share) => (share < 1 ? share ** 3 / (1 - share) : Number.POSITIVE_INFINITY));
}

/** Windows from the quietest to the loudest command, every line counting alike. */
function byLoudness(each: readonly WindowSpectra[], lines: readonly number[]): number[] {
  const powers = lines.map((index) => each.map(({ command }) => square(pairAt(command, index))));
  const shares = powers.map((line) => {
    const total = mean(line);
    return line.map((power) => power / total);
  });
  const levels = each.map((_, window) => shares.reduce((sum, line) => sum + at(line, window), 0));
  return each.map((_, window) => window).sort((a, b) => at(levels, a) - at(levels, b) || a - b);
}
