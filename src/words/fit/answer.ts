// What a fit says, in one line: does the craft turn as the model said, where does the boundary lie now, what becomes of the tune.
import { straightBetween } from "../../base/straight-between.js";
import type { BoundaryBandPoint, FitFile, FittedAxis } from "../../fit/format.js";
import { AXES } from "../axes.js";
import { countWords } from "../confidence-words.js";
import { capital } from "../limit-words.js";
import { percent } from "../numbers.js";
import { type Change, changeOf, wholePercents } from "./estimates.js";

/** A boundary that moved by less did not move, %: the band's own error. Ours, no source. */
const STILL = 1;

/** "The craft turns 12 % more than the model said; the boundary lies 9 % lower. Do not fly the old tune." */
export const answerWords = (fit: FitFile): string =>
  [`${capital(turnWords(fit))}; ${boundaryWords(fit)}.`, tuneWords(fit)].filter((words) => words !== "").join(" ");

/** "Roll turns 22 % and pitch 12 % more than the model said"; what is the same on both axes is said once, of the craft. */
function turnWords({ axes }: FitFile): string {
  const changes = { roll: turnChange(axes.roll), pitch: turnChange(axes.pitch) };
  const [roll, pitch] = [turnOf(axes.roll), turnOf(axes.pitch)];
  if (roll === pitch) return `the craft turns ${roll}`;
  const alike = changes.roll.percent > 0 === changes.pitch.percent > 0;
  return alike && changes.roll.seen && changes.pitch.seen
    ? `roll turns ${wholePercents(changes.roll.percent)} and pitch ${pitch}`
    : `roll turns ${roll} and pitch ${pitch}`;
}

/** How much turn a command gives, by what a log tells best: authority over lag. */
export function turnOf({ before, after }: Pick<FittedAxis, "before" | "after">): string {
  const change = turnChange({ before, after });
  if (!change.seen) return "about as the model said";
  return `${wholePercents(change.percent)} ${change.percent > 0 ? "more" : "less"} than the model said`;
}

const turnChange = ({ before, after }: Pick<FittedAxis, "before" | "after">): Change =>
  changeOf(before.authorityOverLag, after.authorityOverLag);

function boundaryWords({ axes }: FitFile): string {
  const [roll, pitch] = [shiftWords(axes.roll), shiftWords(axes.pitch)];
  return roll === pitch ? `the boundary lies ${roll}` : `the boundary lies ${roll} on roll, ${pitch} on pitch`;
}

export function shiftWords(axis: FittedAxis): string {
  const shift = boundaryShift(axis);
  if (shift === "none") return "beyond every P searched, as before";
  if (shift === "gone") return "beyond every P searched";
  if (shift === "new") return "within the P searched, where none was";
  if (Math.abs(shift) < STILL) return "where it did";
  return `${wholePercents(shift)} ${shift > 0 ? "higher" : "lower"}`;
}

/** Shift of the band's middle at the tune's D, without a tune at the middle D, %. */
export function boundaryShift({ band, tune }: Pick<FittedAxis, "band" | "tune">): number | "none" | "gone" | "new" {
  const d = tune?.d ?? band.after[Math.floor(band.after.length / 2)]?.d ?? 0;
  const [before, after] = [middleAt(band.before, d), middleAt(band.after, d)];
  if (before === null) return after === null ? "none" : "new";
  return after === null ? "gone" : 100 * (after / before - 1);
}

export const middleAt = (band: readonly BoundaryBandPoint[], d: number): number | null =>
  straightBetween(
    band.map((point) => [point.d, point.middle]),
    d,
  );

/** Nothing where no gains were given. */
function tuneWords({ axes }: FitFile): string {
  const ended = AXES.filter((axis) => axes[axis].tune?.call === "do not fly");
  if (ended.length === 2) return "Do not fly the old tune.";
  if (ended.length === 1) return `Do not fly the old tune of ${ended[0]}.`;
  const shares = AXES.flatMap((axis) => axes[axis].tune ?? []);
  const [least] = shares.sort((one, other) => one.safeShareAfter - other.safeShareAfter);
  if (least === undefined) return "";
  return `The old tune ${least.call === "holds" ? "still holds" : "is safe"} in ${shareWords(least.safeShareAfter, least.draws)}.`;
}

/** "61 of 64 draws", or "95 % of draws" where nobody says of how many. */
export const shareWords = (share: number, draws: number | undefined): string =>
  draws === undefined
    ? `${percent(Number(share.toPrecision(2)))} of the draws`
    : `${countWords(share * draws, draws)} draws`;
