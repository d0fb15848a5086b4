// Limits and limiting cases in words.
import { MEASURES } from "../base/measures.js";
import { THEORY } from "../base/theory-name.js";
import type { LimitRoom, StabilityMap, StartingTune } from "../map/format.js";
import { endText } from "../map/gain-text.js";
import type { LimitingCase } from "../map/limiting-case.js";
import { type OwnScale, ownScale } from "../map/own-scale.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { times, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "bounce-back over 15 %" for a measure, given by id or title; other limits in the map's own words. */
export function limitWords(map: StabilityMap, limit: string): string {
  if (limit === "grid edge") return "the edge of the swept range";
  const margins = wantedMargins(map);
  if (limit === "gain margin") return `${limit} under ${withUnit(margins.gain, "dB")}`;
  if (limit === "phase margin") return `${limit} under ${withUnit(margins.phase, "\u00b0")}`;
  const measure = MEASURES.find((m) => m.id === limit || m.title === limit);
  if (measure === undefined) return lowerFirst(limit);
  const value = map.limits[measure.id];
  const side = measure.better === "high" ? "under" : "over";
  const bound = value === null ? "" : ` ${side} ${withUnit(value, unitLabel(measure.unit))}`;
  return `${lowerFirst(measure.title)}${bound}`;
}

/** "Hard stop from a roll at 500 °/s, 80 % throttle, fresh pack", or "Theory at 80 % throttle, fresh pack". */
export function limitingCaseWords(map: Pick<StabilityMap, "variants">, limitingCase: LimitingCase): string {
  if (limitingCase.script === THEORY)
    return `Theory at ${withUnit(limitingCase.throttle, "%")} throttle, ${limitingCase.condition}`;
  const title = map.variants.find((variant) => variant.script === limitingCase.script)?.title ?? limitingCase.script;
  const rate = limitingCase.rate === 0 ? "" : ` at ${withUnit(limitingCase.rate, "\u00b0/s")}`;
  return `${title}${rate}, ${withUnit(limitingCase.throttle, "%")} throttle, ${limitingCase.condition}`;
}

export const SIDES = Object.freeze([
  { key: "pUp", gain: "p", words: "more P" },
  { key: "pDown", gain: "p", words: "less P" },
  { key: "dUp", gain: "d", words: "more D" },
  { key: "dDown", gain: "d", words: "less D" },
] as const);
export type Side = (typeof SIDES)[number];

/** The gain at which the side meets its limit, in its unit; null where it meets none. */
export function reach(start: StartingTune, side: Side): number | null {
  const { factor } = start.room[side.key];
  return factor === null ? null : start[side.gain] * factor;
}

/** The side with the least room as a factor, or null when no side meets anything. */
export function tightest(start: StartingTune): { readonly side: Side; readonly room: LimitRoom } | null {
  const nearness = (room: LimitRoom) =>
    room.factor === null ? Number.POSITIVE_INFINITY : Math.abs(Math.log(room.factor));
  const rows = SIDES.map((side) => ({ side, room: start.room[side.key] }));
  const nearest = rows.reduce((best, row) => (nearness(row.room) < nearness(best.room) ? row : best));
  return nearest.room.factor === null ? null : nearest;
}

/** "gain margin, with more D: at 3.77 (× 1.28)". */
export function tightestWords(map: StabilityMap, start: StartingTune): string {
  const nearest = tightest(start);
  if (nearest === null || nearest.room.factor === null) return start.limitedBy;
  const { side, room } = nearest;
  const at = endText(ownScale(map), side.gain, start[side.gain] * nearest.room.factor);
  return `${limitWords(map, room.limit)}, with ${side.words}: at ${side.gain.toUpperCase()} ${at} (${times(nearest.room.factor)})`;
}

/** The range one gain may take while the other stays, in words. */
export function rangeWords(own: OwnScale | null, start: StartingTune, gain: "p" | "d"): string {
  const [up, down] = SIDES.filter((side) => side.gain === gain).map((side) => reach(start, side));
  if (up == null) return down == null ? "any" : `${endText(own, gain, down)} and up`;
  return `${endText(own, gain, down ?? 0)} to ${endText(own, gain, up)}`;
}
