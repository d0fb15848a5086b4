// The question of a run: grid, scripts, conditions and limits, as resolved from a sweep file. SI throughout.
import type { Gates } from "../base/gates.js";
import type { MeasureId } from "../base/measures.js";
import type { ScriptKind } from "../base/script-kinds.js";
import type { StripKind } from "../base/strip-measures.js";

export type Axis = "roll" | "pitch";

/** An axis whose rate a trial is judged by: those with a map of P and D, and yaw. */
export type TestedAxis = Axis | "yaw";

/** A value against time, joined by straight lines; constant before the first and after the last point. */
export type Timeline<Value> = readonly (readonly [time: number, value: Value])[];

/** Throttle is a duty fraction, or a share of the sweep's level ("level", "hover" already resolved to numbers by the plan). */
export type ThrottleValue =
  | { readonly kind: "duty"; readonly duty: number }
  | { readonly kind: "level"; readonly plus: number } // the swept level plus a duty
  | { readonly kind: "idle" };

/** A commanded rate in rad/s, or a multiple of the swept rate. */
export type RateValue =
  | { readonly kind: "rate"; readonly rate: number }
  | { readonly kind: "share"; readonly share: number };

/** Vertical speed through the air: m/s, or multiples of the hover induced velocity vh. */
export type SpeedValue =
  | { readonly kind: "speed"; readonly speed: number }
  | { readonly kind: "ratio"; readonly ratio: number };

export interface GustPulse {
  readonly kind: "pulse"; // one minus cosine, vertical, sweeping over the craft
  readonly at: number; // s
  readonly peak: number; // m/s, upward through the rotor disc
  readonly length: number; // m, whole pulse
  readonly speed: number; // m/s, at which it sweeps
}

export interface GustTurbulence {
  readonly kind: "turbulence"; // Dryden, vertical and rotary
  readonly from: number; // s
  readonly to: number; // s
  readonly rms: number; // m/s
  readonly scale: number; // m
  readonly speed: number; // m/s, mean wind
}

export interface Script {
  readonly name: string;
  readonly title: string;
  readonly kind: ScriptKind;
  /** Axes whose verdict this script decides; yaw only in a strip. */
  readonly axes: readonly TestedAxis[];
  readonly duration: number; // s
  /** The window the measures look at; for `stop` it begins where the commanded ramp ends. */
  readonly window: { readonly from: number; readonly to: number };
  /** The calm end in which an oscillation must die out. */
  readonly tail: { readonly from: number; readonly to: number };
  /** False: the sensor is silent. */
  readonly noise: boolean;
  readonly throttle: Timeline<ThrottleValue>;
  /** Commanded rate of the axis under test. */
  readonly command: Timeline<RateValue>;
  readonly yaw: Timeline<RateValue>;
  readonly climb: Timeline<SpeedValue>;
  readonly descent: Timeline<SpeedValue>;
  readonly gusts: readonly (GustPulse | GustTurbulence)[];
}

/** One use of a script in a sweep, varied over throttle levels and commanded rates. */
export interface ScriptUse {
  readonly script: Script;
  /** Duty levels, or the duty at which the craft hovers. */
  readonly throttle: readonly (number | "hover")[];
  readonly rates: readonly number[]; // rad/s
}

export interface Condition {
  readonly name: string;
  readonly charge: number; // 0 to 1
  readonly payload: { readonly mass: number; readonly at: readonly [number, number, number] } | null;
  readonly altitude: number; // m, pressure altitude
  readonly temperature: number | null; // K; null: the standard day's
}

/** Gains of one side of a grid, SI, rising. */
export type GridLine = readonly number[];

/** The lines of one axis's grid; points are counted [d * p.length + p]. */
export interface GainGrid {
  readonly p: GridLine;
  readonly d: GridLine;
}

/** How many lines of P and of D the plan chooses for an axis: it knows the craft, a sweep file does not. */
export interface AutoGrid {
  readonly auto: LineCounts;
}

export interface LineCounts {
  readonly p: number;
  readonly d: number;
}

/** A sweep as its file asks for it: the lines of an axis may be left to the plan. */
export type RequestedSweep = Omit<Sweep, "grid" | "autoGrid"> & {
  readonly grid: Readonly<Record<Axis, GainGrid | AutoGrid>>;
  /** Of the model, each to be mapped beside it; left out where there are none. No part of the question of any one map. */
  readonly changes?: readonly SweepChange[];
};

/** Something taken out of the model, or put into it. */
export interface SweepChange {
  readonly kind: "without" | "with";
  readonly name: string;
  /** "key=value" each; an empty value takes the key out. */
  readonly set: readonly string[];
}

export interface Sweep {
  readonly name: string;
  readonly title: string;
  /** Path of the model as the sweep file gives it, relative to that file. */
  readonly model: string | null;
  readonly seed: number;
  readonly grid: Readonly<Record<Axis, GainGrid>>;
  /** Of the axes whose lines the plan chose: how many were asked for. Left out where it chose none. */
  readonly autoGrid?: Readonly<Partial<Record<Axis, LineCounts>>>;
  readonly scripts: readonly ScriptUse[];
  /** Every script at every point, sustained or not; left out where only those that can decide are simulated. */
  readonly everyTrial?: true;
  readonly conditions: readonly Condition[];
  readonly limits: Readonly<Record<MeasureId, number | null>>;
  /** Margins of the safe region: gain factor up and down in dB, phase in rad. */
  readonly margins: { readonly gain: number; readonly phase: number };
  /** Relative width in P to which a boundary is bisected. */
  readonly boundaryTolerance: number;
  /** How sure the map is to say it is; left out: the model is taken as exact. */
  readonly uncertainty?: Uncertainty;
  /** P of yaw, and I of roll and pitch, judged at the starting tune; left out where the sweep asks for neither. */
  readonly strips?: Readonly<Partial<Record<StripKind, RequestedStrip>>>;
  /** The tune that a pilot flies today, or null. */
  readonly pinned: Readonly<Record<Axis, { readonly p: number; readonly d: number }>> | null;
  /** How much drift a comparison allows; no part of what is simulated. */
  readonly gates: Gates;
  /** The end of a drift's interval that gates judge; left out: the middle. */
  readonly gateJudge?: "lower";
  /** Where a gate that is skipped counts as failed; no part of what is simulated. Left out where it does not. */
  readonly skippedGates?: "fail";
  /** What a gate compares; no part of what is simulated. */
  readonly baseline: BaselineWanted | null;
  readonly defaulted: readonly string[];
}

/** A gain judged along a line: which scripts, at how many gains, within which limits (by the ids of base/strip-measures.ts). */
export interface RequestedStrip {
  readonly scripts: readonly ScriptUse[];
  readonly points: number;
  readonly limits: Readonly<Record<string, number | null>>;
}

export interface Uncertainty {
  /** Models drawn from the spreads. */
  readonly draws: number;
  /** Share of them in which a point of the safe region is safe, a fraction. */
  readonly confidence: number;
  /** Expanded uncertainty of the loop gain, which stands for what is not modelled; a fraction. */
  readonly loopGain: number;
}

/** Model files as the sweep file gives them: that of the baseline, and those compared with it. */
export interface BaselineWanted {
  readonly model: string | null; // null: the sweep's own
  readonly candidates: readonly string[];
}
