// How far a value moved, and how far is beyond the width to which boundaries are narrowed: the one rule for every measure.
import { ln } from "../base/elementary.js";
import { measureOf } from "../base/measures.js";
import { change } from "../compare/shift.js";
import type { EndOfRange } from "./format.js";
import type { FollowedId, MoveUnit, Value } from "./trend.js";

export const moveUnit = (measure: FollowedId): MoveUnit =>
  measure === "gainUp" ? "dB" : measure === "phase" ? "deg" : "%";

const DEGREES = 180 / Math.PI;

/**
 * What a share of the loop's gain is in the unit of a move. A gain that is off by a share turns the loop by as many radians at most
 * where it is off by a phase, so the same share stands for either.
 */
export function toleranceIn(unit: MoveUnit, share: number): number {
  if (unit === "dB") return (20 * ln(1 + share)) / Math.LN10;
  return unit === "deg" ? share * DEGREES : 100 * share;
}

/** Size of a move in its unit; null where a side is no number, or nothing can be a share of it. */
export function moveSize(unit: MoveUnit, from: Value, to: Value): number | null {
  if (typeof from !== "number" || typeof to !== "number") return null;
  if (unit !== "%") return to - from;
  return from === 0 ? (to === 0 ? 0 : null) : change(from, to);
}

/** Whether a value is higher than another; null where they are equal. */
export function rises(from: EndOfRange, to: EndOfRange): boolean | null {
  const [low, high] = [placeOf(from), placeOf(to)];
  return low === high ? null : high > low;
}

const placeOf = (value: EndOfRange): number =>
  value === "none" ? Number.NEGATIVE_INFINITY : value === "above" ? Number.POSITIVE_INFINITY : value;

/** Whether more of it is better for the craft; null: gains of a start are neither. */
export function moreIsBetter(measure: FollowedId): boolean | null {
  switch (measure) {
    case "startP":
    case "startD":
    case "stripChoice":
      return null;
    case "boundary":
    case "levels":
    case "safeShare":
    case "gainUp":
    case "phase":
    case "stripEnd":
      return true;
    default: {
      const { better } = measureOf(measure);
      return better === null ? null : better === "high";
    }
  }
}
