// What strips are judged by besides margins: yaw along its P, roll and pitch along their I. One catalogue for sweep files, verdicts
// and words.
import type { MeasureId } from "./measures.js";

export type StripKind = "yaw" | "i";

export interface StripMeasure {
  readonly id: string;
  /** Key of its limit in a sweep file. */
  readonly key: string;
  readonly title: string;
  readonly unit: string;
  /** The measure of a trial that it is read from, the worst of all trials of a point. */
  readonly reads: MeasureId;
  /** Factor on that measure, over the one at the lowest gain of the strip; null: as it is read. */
  readonly overLowest: number | null;
  /** In `unit`; null: that of the sweep's own limits. */
  readonly limit: number | null;
  readonly why: string;
}

const row = (
  id: string,
  key: string,
  title: string,
  unit: string,
  reads: MeasureId,
  limit: number | null,
  why: string,
  overLowest: number | null = null,
): StripMeasure => Object.freeze({ id, key, title, unit, reads, overLowest, limit, why });

/** Limits are ours, no source; the sweep may set others. */
export const STRIP_MEASURES: Readonly<Record<StripKind, readonly StripMeasure[]>> = Object.freeze({
  yaw: Object.freeze([
    row(
      "rise",
      "rise",
      "Yaw stop time",
      "ms",
      "rise",
      300,
      "A turn that runs on: yaw has a fraction of the torque of roll.",
    ),
    row(
      "overshoot",
      "overshoot",
      "Yaw bounce-back",
      "%",
      "overshoot",
      15,
      "Too little P lets its I swing the nose back, too much rings.",
    ),
    row(
      "settling",
      "settling",
      "Yaw settling time",
      "ms",
      "settling",
      600,
      "Until the turn has ended to within 5 % of its rate.",
    ),
    row("kick", "kick", "Heading swing", "deg", "kick", 5, "How far the nose swings in a punch-out."),
    row(
      "limited",
      "limited",
      "Reserve used up",
      "%",
      "limited",
      5,
      "Share of the window in which yaw, or roll and pitch, asked the motors for more than they have.",
    ),
    row(
      "heat",
      "heat",
      "Motor heating over the least P's",
      "1",
      "heat",
      1.5,
      "What yaw adds to the motors' heat, over that at the strip's lowest P.",
      1,
    ),
    row(
      "commandNoise",
      "command_noise",
      "Yaw command noise",
      "%",
      "commandNoise",
      3,
      "Rms of the yaw command in hover: motors' range that noise takes.",
    ),
  ]),
  i: Object.freeze([
    row(
      "drift",
      "drift",
      "Drift left",
      "%",
      "kick",
      67,
      "Attitude error in a gust that lasts, over that which P and D alone allow.",
      100,
    ),
    row(
      "overshoot",
      "overshoot",
      "Bounce-back",
      "%",
      "overshoot",
      null,
      "Too much I swings the craft back slowly after a stop.",
    ),
    row("settling", "settling", "Settling time", "ms", "settling", null, "The same swing, in time."),
  ]),
});
