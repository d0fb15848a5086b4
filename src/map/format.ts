// map.json, format gainscape.map/2: the only interface between simulating and showing. Plain data:
// gains in display units (P in % per 100 deg/s, D in % per 1000 deg/s^2), absence as null with a reason.
import type { MeasureId, Verdict } from "../base/measures.js";
import type { Axis } from "../sweep/sweep.js";
import type { AxisConfidence, Uncertainty } from "./confidence-format.js";
import type { Ladder } from "./ladder-format.js";
import type { LimitingCase } from "./limiting-case.js";
import type { StartCause } from "./start-cause.js";
import type { Strips } from "./strip-format.js";
import type { TheoryBoundary } from "./theory-format.js";

/** A table over an axis's grid, indexed [d][p]. */
export type Grid<T> = readonly (readonly T[])[];

export interface BoundaryPoint extends Partial<LimitingCase> {
  readonly d: number;
  /** P above which oscillation sustains itself; null with `reason`. */
  readonly p: number | null;
  readonly reason?: "never" | "always";
  /** Lower end of the same stable interval where it is not the grid's edge, and the limiting case there. */
  readonly from?: number;
  readonly fromDecidedBy?: LimitingCase;
  /** Stable P ranges apart from this one, rising; null: the grid's edge. Left out where there are none. */
  readonly otherRanges?: readonly (readonly [from: number | null, to: number | null])[];
}

/** A P interval in which a variant does not sustain an oscillation; an open end is the grid's edge. */
export interface StableInterval {
  readonly from: number;
  readonly to: number;
  readonly fromOpen: boolean;
  readonly toOpen: boolean;
  /** Width of the bisection bracket at the upper and lower end, in P. */
  readonly width: readonly [number, number];
}

export interface ConditionBoundary extends LimitingCase {
  readonly kind: string;
  /** Its script does not move the axis: its ranges say nothing. Left out where it does. */
  readonly atRest?: true;
  readonly perD: readonly { readonly d: number; readonly stable: readonly StableInterval[] }[];
}

/** A P at which a judged measure crosses its limit, interpolated between grid lines. */
export interface LimitCrossing {
  readonly d: number;
  readonly p: readonly number[];
}

export interface LimitRoom {
  /** What the side meets first: "sustained oscillation", "gain margin", "phase margin", a measure's title, or "grid edge". */
  readonly limit: string;
  readonly decidedBy: LimitingCase | null;
  /** Factor by which P (or D) may change before it; null: none, D may go to zero. */
  readonly factor: number | null;
}

export interface StartingTune {
  readonly p: number;
  readonly d: number;
  readonly i: number; // % per 100 deg
  /** Controller's own numbers where the model declares a scale. */
  readonly own: { readonly p: number; readonly d: number } | null;
  readonly limitedBy: string;
  readonly room: {
    readonly pUp: LimitRoom;
    readonly pDown: LimitRoom;
    readonly dUp: LimitRoom;
    readonly dDown: LimitRoom;
  };
  /** Worst value of each measure at the starting tune, confirmed by trials. */
  readonly measures: Readonly<Partial<Record<MeasureId, number | null>>>;
  /** What chance leaves open; left out of maps of older versions. */
  readonly otherSeeds?: OtherSeeds;
  /** dB, dB, deg; null where no rise or loss of gain destabilises. */
  readonly margins: { readonly gainUp: number | null; readonly gainDown: number | null; readonly phase: number };
}

/** A tune's measures under seeds the map was not made with. */
export interface OtherSeeds {
  /** So many, next to the map's own. */
  readonly seeds: number;
  /** Lowest and highest value of each measure with a limit, of the trial that was worst under the map's own seed. */
  readonly ranges: Readonly<Partial<Record<MeasureId, readonly [lowest: number, highest: number]>>>;
}

/** The pinned tune, which a pilot flies today, judged by trials and margins of its own. */
export interface PinnedPoint {
  readonly p: number;
  readonly d: number;
  /** Controller's own numbers where the model declares a scale. */
  readonly own: { readonly p: number; readonly d: number } | null;
  readonly verdict: Verdict;
  /** The limiting case of the verdict; null where clean. */
  readonly decidedBy: LimitingCase | null;
  /** Worst value of each measure; null: absent. */
  readonly measures: Readonly<Partial<Record<MeasureId, number | null>>>;
  /** dB and dB (null where no change of gain destabilises), deg. */
  readonly margins: { readonly gainUp: number | null; readonly gainDown: number | null; readonly phase: number };
  readonly safe: boolean;
  /** Where the oscillation sets in when P alone is raised, at exactly this D. */
  readonly boundary: BoundaryPoint;
}

/** A point at which a trial diverged: the first of its trials to do so. */
export interface DivergedPoint extends LimitingCase {
  readonly p: number;
  readonly d: number;
  readonly after: number; // s from the start of the trial
}

/** Lines of an axis's grid, rising; every table of the axis has a row per D and a column per P. */
export interface GridLines {
  readonly p: readonly number[];
  readonly d: readonly number[];
}

export interface AxisMap {
  readonly grid: GridLines;
  readonly verdict: Grid<Verdict>;
  /** Every reason that applies, as a bit set over VERDICTS (bit 0 sustained ... bit 3 loose). */
  readonly reasons: Grid<number>;
  /**
   * What decided the verdict: an index into `variants` of the map; -1 where clean; -2 - v: theory, at the throttle and under
   * the condition of variant v.
   */
  readonly decidedBy: Grid<number>;
  /** Worst case over scripts and conditions per measure; null: absent, see `absent`. */
  readonly measures: Readonly<Record<MeasureId, Grid<number | null>>>;
  /** Index into ABSENCES where the measure is null, else 0. */
  readonly absent: Readonly<Record<MeasureId, Grid<number>>>;
  readonly margins: {
    readonly gainUp: Grid<number | null>;
    readonly gainDown: Grid<number | null>;
    readonly phase: Grid<number | null>;
  };
  readonly boundary: {
    readonly sustained: readonly BoundaryPoint[];
    readonly byVariant: readonly ConditionBoundary[];
    readonly overshoot: readonly LimitCrossing[];
    readonly settling: readonly LimitCrossing[];
    /** Left out where the map comes from a baseline. */
    readonly theory?: TheoryBoundary;
  };
  /** Points that a nudge settled, so that other scripts were not simulated there; only where there are any. */
  readonly leftOut?: { readonly points: number; readonly trials: number };
  /** Only where a trial diverged. */
  readonly divergences?: readonly DivergedPoint[];
  readonly safe: Grid<boolean>;
  readonly safeShare: number;
  readonly start: StartingTune | null;
  readonly startReason: string | null;
  /** Of an axis without a start: what stands in its way, the likeliest first. Only where any was found. */
  readonly startCauses?: readonly StartCause[];
  /** Only where the sweep declares a pinned tune. */
  readonly pinned?: PinnedPoint;
  /** Only where the map was made with draws. */
  readonly confidence?: AxisConfidence;
}

export interface MapVariant extends LimitingCase {
  readonly kind: string;
  readonly title: string;
  readonly axis: Axis;
}

export interface StabilityMap {
  readonly format: "gainscape.map/2";
  readonly product: { readonly name: "gainscape"; readonly version: string };
  readonly airframe: {
    readonly name: string;
    readonly version: string;
    readonly title: string;
    readonly digest: string;
  };
  readonly sweep: { readonly name: string; readonly title: string; readonly digest: string };
  /** Of every gain, as files spell them. */
  readonly units: { readonly p: string; readonly d: string; readonly i: string };
  readonly limits: Readonly<Record<MeasureId, number | null>>;
  readonly variants: readonly MapVariant[];
  readonly axes: Readonly<Record<Axis, AxisMap>>;
  /** The planned climb; only where an axis has a starting tune. */
  readonly ladder?: Ladder;
  /** P of yaw and I, judged at the starting tunes; only where the sweep asks for them. */
  readonly strips?: Strips;
  /** The draws; only where the map was made with them. */
  readonly uncertainty?: Uncertainty;
  /** Why there are none although the sweep asks for them; only where that is so. */
  readonly uncertaintyReason?: string;
  /** What was assumed, one readable line each. */
  readonly assumptions: readonly string[];
  readonly hover: Readonly<
    Record<string, { readonly throttle: number; readonly rotorSpeed: number; readonly voltage: number }>
  >;
  readonly provenance: {
    readonly command: string;
    readonly seed: number;
    readonly model: string;
    readonly sweep: string;
    readonly trials: number;
    readonly steps: number;
  };
  /** Changed by hand after it was made, and accepted with --unsealed; only where that is so. */
  readonly unsealed?: true;
  /** The resolved model and plan, so that reports and comparisons need nothing else. */
  readonly model: unknown;
  readonly plan: unknown;
}
