// So do this: the tune of before, whether it still does, and what to set instead, in the numbers that the pilot types.
import type { Drift } from "../compare/format.js";
import type { NextTune, Reason } from "../compare/next-tune-format.js";
import { constraintTitle } from "../map/field.js";
import type { StabilityMap } from "../map/format.js";
import { endText, placeText, settingText } from "../map/gain-text.js";
import type { OwnScale } from "../map/own-scale.js";
import { AXIS_TITLES, type Axis } from "./axes.js";
import { capital, limitingCaseWords, lowerFirst } from "./limit-words.js";
import { times, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

export interface NextWords {
  /** "Do not fly the pinned tune". */
  readonly title: string;
  readonly good: boolean;
  /** Where the tune of before does not hold: measure, value, limit and manoeuvre. */
  readonly reason: string | null;
  /** "P 1460 (× 0.62), D 1110 (× 0.58)"; null: the candidate has no start. */
  readonly set: string | null;
  readonly room: string | null;
  readonly climb: string | null;
  readonly caution: string | null;
}

/** Null in a drift that does not say. `variants`: the candidate's, for the titles of scripts. */
export function nextWords(
  { axes, own }: Pick<Drift, "axes" | "own">,
  axis: Axis,
  variants: StabilityMap["variants"] = [],
): NextWords | null {
  const { next } = axes[axis];
  if (next === undefined) return null;
  const { reason, start } = next;
  return {
    title: titleOf(next),
    good: next.holds === true,
    reason: reason === null ? null : reasonWords(own, reason, variants),
    set: start === null ? null : setWords(own, start),
    room: start?.room == null ? null : roomWords(own, start, start.room),
    climb: start?.climb == null ? null : `${start.climb.flights} flights, from ${placeText(own, start.climb)}`,
    caution: cautionOf(next),
  };
}

function titleOf({ before, holds }: NextTune): string {
  if (before === null) return "No tune of before";
  const tune = before.pinned ? "pinned tune" : "old starting tune";
  return holds === true ? `The ${tune} still holds` : `Do not fly the ${tune}`;
}

type Start = NonNullable<NextTune["start"]>;

function setWords(own: OwnScale | null, { p, d, pFactor, dFactor }: Start): string {
  const by = (factor: number | null) => (factor === null ? "" : ` (${times(factor)})`);
  return `P ${settingText(own, "p", p)}${by(pFactor)}, D ${settingText(own, "d", d)}${by(dFactor)}`;
}

/** "gain margin with more D, at 1560 (× 1.28)". */
function roomWords(own: OwnScale | null, start: Start, { side, factor, limit }: NonNullable<Start["room"]>): string {
  const gain = side.endsWith("P") ? "p" : "d";
  return `${lowerFirst(limit)} with ${side}, at ${endText(own, gain, factor * start[gain])} (${times(factor)})`;
}

/** "Bounce-back 22 %, limit 15 % (hard stop from a roll at 500 °/s, 70 % throttle, fresh pack)". */
function reasonWords(own: OwnScale | null, reason: Reason, variants: StabilityMap["variants"]): string {
  const { title, value, limit, unit, better, by } = reason;
  const where = by === null ? "" : ` (${lowerFirst(limitingCaseWords({ variants }, by))})`;
  if (title === constraintTitle("sustained")) {
    const from = limit === null ? "at any P of this D" : `from P ${endText(own, "p", limit)} up`;
    const at = value === null ? "" : `, the tune has P ${settingText(own, "p", value)}`;
    return `The oscillation does not die out ${from}${at}${where}`;
  }
  const side = better === "low" ? "over" : "under";
  const bound = limit === null ? "" : withUnit(limit, unitLabel(unit));
  if (value === null) return `${capital(title)}${bound === "" ? "" : ` ${side} ${bound}`}${where}`;
  return `${capital(title)} ${withUnit(value, unitLabel(unit))}, ${better === "low" ? "at most" : "at least"} ${bound}${where}`;
}

/** A gain by which nothing rises is no reason for care. */
const RISES = 1.01;

function cautionOf({ start }: NextTune): string | null {
  const rises = [start?.pFactor, start?.dFactor].some((factor) => factor != null && factor > RISES);
  return rises ? "A gain that rises is raised in small steps, with a look at the motors after each." : null;
}

/** The same in one line for a terminal. */
export function nextLine(drift: Pick<Drift, "axes" | "own">, axis: Axis): string | null {
  const words = nextWords(drift, axis);
  const before = drift.axes[axis].next?.before;
  if (words === null || before == null) return null;
  const { title, good, reason, set, room, climb, caution } = words;
  const head = `${AXIS_TITLES[axis]}: ${lowerFirst(title)}, ${placeText(drift.own, before)}${reason === null ? "" : `: ${lowerFirst(reason)}`}.`;
  if (good) return head;
  if (set === null) return `${head} The new map has no starting tune: do not fly before it has.`;
  const rest = [
    `Set instead ${set}${room === null ? "" : `; room: ${room}`}.`,
    ...(climb === null ? [] : [`Climb to it in ${climb}.`]),
    ...(caution === null ? [] : [caution]),
  ];
  return [head, ...rest].join(" ");
}
