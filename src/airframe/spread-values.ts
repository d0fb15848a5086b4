// What a number with a spread may be: by the share of craft below it, or by its score, a standard normal number.
import { exp, ln } from "../base/elementary.js";
import { normalQuantile, normalShareBelow } from "../base/normal.js";
import type { Spread } from "../base/spread.js";

/** The value that a share of such craft lie below. */
export function valueAt(spread: Spread, probability: number): number {
  const { nominal, law, size } = spread;
  if (law === "uniform") return nominal + size * (2 * probability - 1);
  return valueAtScore(spread, normalQuantile(probability));
}

/** The value at a score: 0 is the number as it is written, 2 lies below 97.7 of 100 such craft. */
export function valueAtScore(spread: Spread, score: number): number {
  const { nominal, law, size } = spread;
  if (law === "uniform") return valueAt(spread, normalShareBelow(score));
  return law === "normal" ? nominal + 0.5 * size * score : nominal * exp(0.5 * ln(1 + size) * score);
}
