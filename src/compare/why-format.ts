// The part of drift.json that says which changes of the model moved what.
import type { Axis } from "../sweep/sweep.js";

/** What moved a measure, by theory. */
export interface WhyParts {
  /** The whole move by theory: %, dB or degrees. */
  readonly whole: number;
  /** What of it each of `Why.changes` did; they add up to the whole. */
  readonly parts: readonly number[];
  /** Of 100 such parts 95 lie within this of the exact ones; null: they are exact. */
  readonly errors: readonly number[] | null;
  /** The same move in the maps, in the same unit: what it is more than the whole is no theory's; null: not known. */
  readonly simulated: number | null;
}

/** Null: theory does not have it on both sides. */
export interface AxisWhy {
  /** %, of the P at which the axis gives out at its worst throttle and pack, at one D. */
  readonly boundary: (WhyParts & { readonly d: number }) | null;
  /** Whose margins follow: the pinned tune, or else the base's starting tune; null: there is neither. */
  readonly tune: { readonly p: number; readonly d: number; readonly pinned: boolean } | null;
  readonly gainMargin: WhyParts | null; // dB upwards
  readonly phaseMargin: WhyParts | null; // deg
  /** %, of the base's starting tune: with P and D moved so, it has both margins of before. */
  readonly startP: WhyParts | null;
  readonly startD: WhyParts | null;
}

/** Changed numbers that count as one: each alone would not do. */
export interface WhyChange {
  readonly numbers: readonly {
    /** Key in a model file; `frame`: mass, centre of mass and inertia. */
    readonly id: string;
    /** Of that number; of a filter: of its delay. */
    readonly change: "more" | "less" | "other";
  }[];
}

/** The drift taken apart by what changed in the model (Shapley 1953, on logarithms of what is in %). */
export interface Why {
  readonly changes: readonly WhyChange[];
  /** Changed keys that theory does not read: what they do only the trials show. */
  readonly unread: readonly string[];
  /** Orders of the changes that were looked at; null: all. */
  readonly orders: number | null;
  readonly axes: Readonly<Record<Axis, AxisWhy>>;
}
