// How sure a map is, in sentences: shares of draws with their intervals, the region at the confidence, the boundary's band.
import { at } from "../base/at.js";
import type { ShareOfDraws } from "../map/confidence-format.js";
import type { AxisMap, StabilityMap } from "../map/format.js";
import { endText, settingText } from "../map/gain-text.js";
import type { OwnScale } from "../map/own-scale.js";
import { type Sure, sureOf } from "../map/sure.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { AXES, nearestLine } from "./axes.js";
import { limitWords } from "./limit-words.js";
import { wantedWords } from "./margin-words.js";
import { count, percent, toThreeDigits } from "./numbers.js";

/** Stands beside every share. */
export const SIMULATED_CRAFT = "share of simulated craft, not the chance that yours is safe";

/** What a draw is, where draws are first met. */
export const DRAW_WORDS =
  "A draw is one craft as it might really be: every number of the model moved at random within its \u00b1.";

/** "95 of 100 draws"; of 1 000 where that is finer. */
export function ofDraws(confidence: number): string {
  const of = Number.isInteger(Number((100 * confidence).toPrecision(9))) ? 100 : 1000;
  return `${toThreeDigits(confidence * of)} of ${count(of)} draws`;
}

/** "58 of 64". */
export const countWords = (safe: number, of: number): string => `${count(safe)} of ${count(of)}`;

/** "81 to 96 %". */
const intervalWords = ([low, high]: ShareOfDraws["interval"]): string =>
  `${Math.round(100 * low)} to ${Math.round(100 * high)}\u00a0%`;

/** "58 of 64 draws that did not choose it (81 to 96 %)". */
export const startShareWords = ({ safe, of, interval }: ShareOfDraws): string =>
  `${countWords(safe, of)} draws that did not choose it (${intervalWords(interval)})`;

/** Whether any point of the axis is safe at the confidence. */
export const anyHolds = ({ safeDraws, holds }: Sure): boolean =>
  safeDraws.some((row, i) => row.some((_, j) => holds(i, j)));

/** The most draws in which any point is safe. */
const most = ({ safeDraws }: Sure): number =>
  safeDraws.reduce((found, row) => row.reduce((best, one) => Math.max(best, one), found), 0);

/** How much of the swept ground is safe at the confidence, as a sentence. */
export function groundWords(axis: AxisMap, sure: Sure): string {
  const asWritten = `${percent(axis.safeShare)} in the model as it is written`;
  if (anyHolds(sure))
    return `${percent(sure.safeShare)} of the swept points are safe in ${ofDraws(sure.confidence)}, ${asWritten}.`;
  return `No swept point is safe in ${ofDraws(sure.confidence)}; the best is safe in ${countWords(most(sure), sure.pointDraws)}.`;
}

/** From where up the oscillation sustains itself at the starting tune's D, or at the lowest D, over the draws. */
export function bandWords(own: OwnScale | null, axis: AxisMap, { band }: Sure): string {
  const d = axis.start?.d ?? axis.grid.d[0] ?? 0;
  if (band.length === 0) return "";
  const lines = band.map((point) => point.d);
  const { low, middle, high, d: line } = at(band, nearestLine(lines, d));
  const where = `At D ${settingText(own, "d", line)}`;
  if (low === null)
    return `${where} fewer than 5 of 100 draws have a P, of those searched, at which the oscillation keeps itself alive.`;
  const from = (p: number | null, draws: string) =>
    p === null ? [] : [`from P ${endText(own, "p", p)} up in ${draws}`];
  const parts = [...from(low, "5 of 100 draws"), ...from(middle, "half of them"), ...from(high, "95 of 100")];
  return `${where} the oscillation keeps itself alive ${parts.join(", ")}.`;
}

/** What was not simulated in the draws, in one line; both axes together. */
export function leftOutWords(map: StabilityMap): string {
  const all = AXES.flatMap((name) => sureOf(map, map.axes[name]) ?? []);
  const sum = (of: "points" | "trials") => all.reduce((total, { leftOut }) => total + leftOut[of], 0);
  const points =
    sum("points") === 0 ? "" : ` or at ${count(sum("points"))} points with nothing nearly safe around them`;
  return `Left out of the draws because it could not decide: ${count(sum("trials"))} trials of manoeuvres well within their limits${points}.`;
}

/** What forbids a tune in a draw: "settling time over 250 ms". */
export const failureWords = (map: StabilityMap, by: string): string =>
  by === "margins" ? `less margin than ${wantedWords(wantedMargins(map))}` : limitWords(map, by);
