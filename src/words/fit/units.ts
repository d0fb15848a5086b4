// What one unit of a gain is worth, in words.
import { D_UNIT, I_UNIT, P_UNIT } from "../../base/units.js";
import type { FittedUnit } from "../../fit/format.js";
import { GAIN_UNITS } from "../../map/display-units.js";
import { toThreeDigits } from "../numbers.js";
import { unitLabel } from "../units.js";
import { percents, relativeSpread } from "./estimates.js";

const SCALE = Object.freeze({ p: P_UNIT, i: I_UNIT, d: D_UNIT });

/** "One unit of P is worth 0.21 % per 100°/s (± 3 %) on roll and pitch." */
export function unitWorth({ gain, axes, value }: FittedUnit): string {
  const on = axes.length === 3 ? "every axis" : axes.join(" and ");
  if (value === null) return `What one unit of ${gain.toUpperCase()} is worth on ${on} the log does not tell.`;
  const spread = relativeSpread(value);
  const off = spread === null || spread === 0 ? "" : `\u00a0\u00b1\u00a0${percents(100 * spread)}`;
  return `One unit of ${gain.toUpperCase()} is worth ${toThreeDigits(value.middle / SCALE[gain])}\u00a0${unitLabel(GAIN_UNITS[gain])}${off} on ${on}.`;
}
