// The start among draws: in the middle of the ground that is safe in them, so that no single draw moves it.
import { at } from "../base/at.js";
import { exp, ln } from "../base/elementary.js";
import type { AxisFound } from "../map/axis.js";
import type { Field } from "../map/field.js";
import type { Place } from "../map/start.js";
import type { GainGrid } from "../sweep/sweep.js";

/** What the count of a place is taken to be, to say how far chance may move it. */
const USUAL_SHARE = 0.97;
const ROUNDING = 1e-9; // 0.9 of 20 draws is 18

/**
 * The nominal field with one more edge: where fewer draws are safe than in the best places, by more than two standard
 * deviations of such a count. Counts that close cannot be told apart, and to prefer the higher one is to let chance choose; but
 * where some place is safe at the confidence (a fraction), so is the start.
 */
export function inMostDraws(
  { field, safe }: AxisFound,
  counts: Uint16Array,
  { draws, confidence }: { readonly draws: number; readonly confidence: number },
): Field {
  const most = counts.reduce((found, count, point) => (safe[point] && count > found ? count : found), 0);
  if (most === 0) return field;
  const chance = Math.ceil(2 * Math.sqrt(draws * USUAL_SHARE * (1 - USUAL_SHARE)));
  const confident = Math.ceil(confidence * draws - ROUNDING);
  const level = Math.max(1, most - chance, most < confident ? 0 : confident);
  const room = Float64Array.from(counts, (count) => (count - level) / draws);
  return {
    ...field,
    constraints: [...field.constraints, { name: "confidence", room, by: new Int32Array(counts.length) }],
  };
}

/**
 * The mean of ln P and ln D over the ground, each cell weighted by the draws that are safe in it: the middle of a craft's safe
 * ground, averaged over the craft. Under ten seeds of draws its P moves by 2 % and its D by 4 %, the middle between the edges of
 * what is safe in nearly all draws by 11 and 10 % (first-tune, 32 draws, 2026-11-28). Null where nothing with D is safe.
 */
export function middleOfSafe({ p, d }: GainGrid, counts: Uint16Array): Place | null {
  let [sum, alongP, alongD] = [0, 0, 0];
  for (const [row, dGain] of d.entries())
    for (const [column, pGain] of p.entries()) {
      if (pGain === 0 || dGain === 0) continue;
      const weight = at(counts, row * p.length + column) * cellOf(p, column) * cellOf(d, row);
      sum += weight;
      alongP += weight * ln(pGain);
      alongD += weight * ln(dGain);
    }
  return sum === 0 ? null : { p: exp(alongP / sum), d: exp(alongD / sum) };
}

/** Width of a line's cell by factors: from half way to the line before, to half way to the next. */
function cellOf(lines: readonly number[], index: number): number {
  const here = at(lines, index);
  const towards = (neighbour: number | undefined) =>
    neighbour === undefined || neighbour === 0 ? 0 : 0.5 * Math.abs(ln(neighbour / here));
  return towards(lines[index - 1]) + towards(lines[index + 1]);
}
