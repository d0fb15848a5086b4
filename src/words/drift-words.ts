// Drift in words and signed numbers, shared by terminal, Markdown and page.
import type {
  Drift,
  Extreme,
  LevelShift,
  PinnedDrift,
  SafeDrift,
  ShiftAtD,
  ShiftInterval,
  ShiftLine,
  StartDrift,
  StartInDraws,
} from "../compare/format.js";
import type { PinnedPoint } from "../map/format.js";
import { endText, placeText, settingText } from "../map/gain-text.js";
import type { OwnScale } from "../map/own-scale.js";
import { count, intervalEnd, toThreeDigits } from "./numbers.js";
import { VERDICT_WORDS } from "./verdict-words.js";

const ARROW = " \u2192 ";

/** A change with its sign: "+2.1", "−4.8", "0". */
export const signed = (value: number): string => `${value > 0 ? "+" : ""}${toThreeDigits(value)}`;

/** "Sandpiper r1 → r2"; both names in full where the crafts differ. */
export function sidesWords({ base, candidate }: Pick<Drift, "base" | "candidate">): string {
  const [from, to] = [base.airframe, candidate.airframe];
  return `${from.name} ${from.version}${ARROW}${from.name === to.name ? "" : `${to.name} `}${to.version}`;
}

export function outcomeWords({ outcome, gates }: Drift): string {
  if (outcome === "pass") return "No regression";
  const failed = gates.filter((gate) => gate.outcome === "fail").length;
  return `Regression: ${count(failed)} ${failed === 1 ? "gate" : "gates"} failed`;
}

/** "1 of 10 gates not judged", of those that were wanted; null where all were. A pass says nothing of what they hold. */
export function unjudgedWords({ gates }: Drift): string | null {
  const unjudged = gates.filter(({ skipReason }) => skipReason !== null && skipReason !== "switched off").length;
  return unjudged === 0 ? null : `${count(unjudged)} of ${count(gates.length)} gates not judged`;
}

/** What a pilot flying the pinned tune must know. */
export function pinnedState({ before, after }: PinnedDrift): { readonly title: string; readonly good: boolean } {
  if (after.safe) return { title: before.safe ? "Still safe" : "Safe now", good: true };
  return { title: before.safe ? "No longer safe" : "Not safe, and was not before", good: false };
}

export type PinnedRow = readonly [title: string, before: string, after: string];

/** The pinned tune's verdict, margins and distance to the boundary on both sides. */
export const pinnedRows = (own: OwnScale | null, { before, after }: PinnedDrift): PinnedRow[] =>
  PINNED.map(([title, say]): PinnedRow => [title, say(before, own), say(after, own)]).filter(
    ([, from, to]) => from !== NO_END || to !== NO_END,
  );

const NO_END = "no end";

const PINNED: readonly (readonly [title: string, say: (point: PinnedPoint, own: OwnScale | null) => string])[] = [
  ["Verdict", verdictWords],
  ["Gain margin upwards", ({ margins }) => decibels(margins.gainUp)],
  ["Gain margin downwards", ({ margins }) => decibels(margins.gainDown)],
  ["Phase margin", ({ margins }) => `${toThreeDigits(margins.phase)}\u00b0`],
  ["Oscillation from P", ({ boundary }, own) => boundaryWords(own, boundary)],
];

function verdictWords({ verdict, safe }: PinnedPoint): string {
  if (safe) return "Safe";
  return verdict === "clean" ? "Clean, short of margin" : VERDICT_WORDS[verdict].title;
}

const decibels = (value: number | null): string => (value === null ? NO_END : `${toThreeDigits(value)}\u00a0dB`);

function boundaryWords(own: OwnScale | null, { p, reason }: PinnedPoint["boundary"]): string {
  if (p !== null) return endText(own, "p", p);
  return reason === "always" ? "any" : "beyond the grid";
}

export const placeWords = (own: OwnScale | null, place: StartDrift["before"]): string =>
  place === null ? "none" : placeText(own, place);

/** "P 20, D 3 → P 18, D 3 (P −10 %, D 0 %)". */
export const startWords = (own: OwnScale | null, start: StartDrift): string =>
  `${placeWords(own, start.before)}${ARROW}${placeWords(own, start.after)}${startChange(start)}`;

/** " (P −10 %, D 0 %)"; empty where neither is known. */
export function startChange({ pPercent, dPercent }: StartDrift): string {
  const changes = [["P", pPercent] as const, ["D", dPercent] as const].flatMap(([gain, percent]) =>
    percent === null ? [] : [`${gain} ${signed(percent)}\u00a0%`],
  );
  return changes.length === 0 ? "" : ` (${changes.join(", ")})`;
}

/** ", −12 %", or nothing where the base had no safe point. */
export const safeChange = ({ percent }: SafeDrift): string => (percent === null ? "" : `, ${signed(percent)}\u00a0%`);

export const levelWords = ({ throttle, condition }: LevelShift): string =>
  `${throttle === "hover" ? "hover" : `${toThreeDigits(throttle)}\u00a0%`}, ${condition}`;

/** "−4.8 % at D 1.5", or why there is none. */
export function extremeWords(own: OwnScale | null, line: ShiftLine, which: "lowest" | "highest"): string {
  const found: Extreme | null = line[which];
  if (found !== null)
    return `${signed(found.percent)}\u00a0%${intervalWords(found.interval)} at D ${settingText(own, "d", found.d)}`;
  return line.perD.every(({ state }) => state === "beyond the grid") ? "beyond the grid" : "none stated";
}

/** The shift at one D: "−4.8 %", "−20 % at least", "no P stable any more". */
export function shiftWords({ state, percent, interval }: ShiftAtD): string {
  if (percent === null) return SILENT_STATES[state] ?? state;
  if (state === "closed") return "no P stable any more";
  const least = state === "moved" ? "" : " at least";
  return `${signed(percent)}\u00a0%${intervalWords(interval)}${least}`;
}

/** " (−17 to −8 %)"; empty where there is none. */
const intervalWords = (interval: ShiftInterval | undefined): string =>
  interval === undefined ? "" : ` (${signedEnd(interval.low)} to ${signedEnd(interval.high)}\u00a0%)`;

const signedEnd = (value: number): string => `${value > 0 ? "+" : ""}${intervalEnd(value)}`;

/** Rarer by chance than this, a difference is said to be seen. */
const SEEN = 0.05;

/** "safe in 58 of 64 draws, now in 51 (lost in 7, gained in 0: more than chance)"; null where no draws say so. */
export function startInDrawsWords(start: StartInDraws | null | undefined): string | null {
  if (start == null) return null;
  const { of, before, after, lost, gained, chance } = start;
  const draws = `safe in ${count(before)} of ${count(of)} draws, now in ${count(after)}`;
  if (lost + gained === 0) return `${draws}, the same ones`;
  const seen = chance < SEEN ? `more than chance gives in ${CHANCE_WORDS}` : "no difference seen, chance gives as much";
  return `${draws} (of the same draws lost in ${count(lost)}, gained in ${count(gained)}: ${seen})`;
}

const CHANCE_WORDS = "5 of 100";

const SILENT_STATES: Readonly<Partial<Record<ShiftAtD["state"], string>>> = {
  "beyond the grid": "beyond the grid on both sides",
  opened: "no P was stable before",
  "never stable": "no P stable on either side",
};
