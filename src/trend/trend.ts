// What records say of one model under one question: how each measure stood, from craft to craft and night to night, where it
// stepped, and where it creeps. Plain data in the units of records.
import type { MeasureId } from "../base/measures.js";
import type { Axis } from "../compare/format.js";
import type { AxisRecord, EndOfRange, StripRecord } from "./format.js";

/** Nights on which nothing changed: one craft, one program, one seed and the same results. */
export interface Stage {
  readonly version: string;
  readonly craft: string; // digest of the model
  readonly product: string; // version of gainscape
  readonly seed: number;
  readonly tolerance: number; // a fraction
  /** Dates of the first and the last record, and how many there are. */
  readonly first: string;
  readonly last: string;
  readonly records: number;
  readonly sweeps: readonly string[];
  readonly axes: Readonly<Record<Axis, AxisRecord>>;
  readonly yaw?: StripRecord;
  /** The stage it is compared with; null: it is the first. */
  readonly before: number | null;
}

/** Yaw has strips alone. */
export type FollowedAxis = Axis | "yaw";

/** What is followed; those of MeasureId are read at the starting tune, the last two from a strip over yaw's P or an axis's I. */
export type FollowedId =
  | "boundary"
  | "levels"
  | "safeShare"
  | "startP"
  | "startD"
  | "gainUp"
  | "phase"
  | MeasureId
  | "stripChoice"
  | "stripEnd";

/** Margins move by differences, all else by ratios. */
export type MoveUnit = "%" | "dB" | "deg";

/** Null: it cannot be said, or not on the same lines. A start that is not there is "none". */
export type Value = EndOfRange | null;

/** One line of a measure: the boundary at one D, or at one level, or the measure itself. */
export interface Series {
  readonly measure: FollowedId;
  /** Of its moves. */
  readonly unit: MoveUnit;
  readonly d?: number;
  readonly level?: { readonly throttle: number | "hover"; readonly condition: string };
  /** Per stage. */
  readonly values: readonly Value[];
  /** Of a boundary: the highest P of each stage's grid, where "above" begins. */
  readonly tops?: readonly number[];
  /** Lowest and highest under other seeds, per stage; only of measures that have it. */
  readonly ranges?: readonly (readonly [number, number] | null)[];
  /** How far seeds move it, in the unit of a move; null: no craft was recorded under two. */
  readonly scatter: number | null;
}

/** A move of one series. */
export interface Move {
  readonly axis: FollowedAxis;
  readonly series: number; // index into the axis's series
  readonly from: EndOfRange;
  readonly to: EndOfRange;
  /** In % of `from`, or in dB or deg where the measure is in those; null: nobody can say. */
  readonly size: number | null;
  /** A side lies above the grid: the move is at least so large. */
  readonly least: boolean;
  /** Whether the craft is better for it; null: neither. */
  readonly better: boolean | null;
}

/** What differs between a stage and the one before it. */
export type Cause = "version" | "edit" | "program" | "seed" | "lines";

export interface Step {
  readonly stage: number;
  readonly causes: readonly Cause[];
  readonly moves: readonly Move[];
}

/** A move that no single step shows. */
export interface Creep extends Move {
  /** First and last stage of the stretch. */
  readonly stages: readonly [first: number, last: number];
  /** Of Mann and Kendall's test: how often chance alone orders values so. */
  readonly chance: number;
}

export interface Trend {
  readonly airframe: string;
  readonly sweeps: readonly string[];
  readonly question: string;
  readonly records: number;
  readonly stages: readonly Stage[];
  /** None of yaw where no map judged it. */
  readonly axes: Readonly<Record<FollowedAxis, readonly Series[]>>;
  readonly steps: readonly Step[];
  readonly creeps: readonly Creep[];
  /** Stages whose seed differs from the one before, with no scatter known to judge them by. */
  readonly unjudged: readonly number[];
}
