// What map.json says of how sure it is: only where the sweep asks for draws and the model says how far it may be off.
import type { SpreadLaw } from "../base/spread.js";
import type { DrawnNumbers } from "./drawn-numbers.js";

/** Of one axis. */
export interface AxisConfidence {
  /** Per point, [d][p]: in how many draws it is safe. */
  readonly safeDraws: readonly (readonly number[])[];
  /** Share of the grid that is safe at the confidence. */
  readonly safeShare: number;
  /** Per D: P above which oscillation sustains itself in 5, 50 and 95 of 100 draws, by theory, moved as trials differ from it; null: in fewer, up to far above the grid. */
  readonly band: readonly BandPoint[];
  /** Of draws that did not choose the starting tune; null where there is none. */
  readonly start: ShareOfDraws | null;
  /** What knowing a number exactly would be worth, most first. */
  readonly worth: readonly Worth[];
  /** What could not decide and was not simulated in the draws. */
  readonly leftOut: { readonly points: number; readonly trials: number };
}

export interface BandPoint {
  readonly d: number;
  readonly low: number | null;
  readonly middle: number | null;
  readonly high: number | null;
}

export interface ShareOfDraws {
  readonly safe: number;
  readonly of: number;
  /** Fractions between which the true share lies at 95 % (Clopper and Pearson 1934). */
  readonly interval: readonly [low: number, high: number];
}

export interface Worth {
  /** As the model file spells it, or "loop gain". */
  readonly key: string;
  /** Points of the grid that become safe at the confidence, per 100 of the points theory calls safe in the model as it is written. */
  readonly gain: number;
  /** Three standard deviations of what chance alone gives. */
  readonly error: number;
}

/** Of the whole map. */
export interface Uncertainty {
  /** Share of draws, a fraction. */
  readonly confidence: number;
  /** How many draws `safeDraws` counts in: those that choose the starting tune. */
  readonly pointDraws: number;
  readonly spreads: readonly SpreadOfMap[];
  /** Draws that no craft can have, drawn again. */
  readonly redrawn: number;
  /** Those that did not choose the starting tune, but judge it. */
  readonly draws: readonly DrawOfMap[];
  /** What simulating trials of those draws takes; left out of older maps, of baselines, and where numbers alone do not do. */
  readonly numbers?: DrawnNumbers;
}

export interface SpreadOfMap {
  readonly key: string;
  readonly nominal: number; // SI
  readonly law: SpreadLaw;
  readonly size: number; // SI; of a log-normal one a share
}

export interface DrawOfMap {
  /** One per spread, SI. */
  readonly values: readonly number[];
  readonly roll: DrawOfAxis;
  readonly pitch: DrawOfAxis;
}

export interface DrawOfAxis {
  /** Per D of the grid, as BandPoint has it. */
  readonly boundary: readonly (number | null)[];
  /** What forbids the starting tune in this draw; null: nothing, or there is none. */
  readonly startFailsBy: string | null;
}
