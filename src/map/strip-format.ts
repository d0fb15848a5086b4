// A gain judged along a line while all others stay at the starting tune: P of yaw, I of roll and pitch. Part of map.json; gains in
// display units, absence as null.
import type { Axis } from "../sweep/sweep.js";
import type { LimitingCase } from "./limiting-case.js";

/** What a point of a strip fails by, or what ends the range that passes. */
export interface StripLimit {
  /** "sustained oscillation", "gain margin", "phase margin", or the id of a measure of the strip. */
  readonly limit: string;
  readonly decidedBy: LimitingCase | null;
}

/** Every list has an entry per gain. */
export interface Strip {
  /** Rising. */
  readonly gains: readonly number[];
  /** By the ids of base/strip-measures.ts; null: absent. */
  readonly measures: Readonly<Record<string, readonly (number | null)[]>>;
  readonly limits: Readonly<Record<string, number | null>>;
  readonly margins: {
    readonly gainUp: readonly (number | null)[];
    readonly gainDown: readonly (number | null)[];
    readonly phase: readonly (number | null)[];
  };
  /** Null where the gain passes. */
  readonly fails: readonly (StripLimit | null)[];
  /** Null where none passes. An end without a limit is the strip's own. */
  readonly range: {
    readonly from: number;
    readonly to: number;
    readonly below: StripLimit | null;
    readonly above: StripLimit | null;
  } | null;
  /** The model's own gain, one of `gains`. */
  readonly declared: number;
  /** The model's own where it passes, else the one that passes with the most room; null where none does. */
  readonly choice: number | null;
  /** Of its scripts, by name. */
  readonly titles: Readonly<Record<string, string>>;
  /** One of the controller's own units, in units of `gains`; null where the model declares none. */
  readonly oneUnit: number | null;
}

export interface YawStrip extends Strip {
  /** I of yaw, which stays, % per 100 deg. */
  readonly i: number;
  /** Axes held by their starting tunes; the others are held as while roll or pitch is swept. */
  readonly heldAtStart: readonly Axis[];
}

export interface Strips {
  readonly yaw?: YawStrip;
  /** Of each axis that has a starting tune. */
  readonly i?: Readonly<Partial<Record<Axis, Strip>>>;
}
