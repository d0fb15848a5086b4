// The planned climb to the starting tune: one flight after another, each with the gains to set and what the model
// predicts for it. Part of map.json; gains in display units, absence as null.
import type { MeasureId } from "../base/measures.js";
import type { LadderKind } from "../base/script-kinds.js";
import type { Axis } from "../sweep/sweep.js";
import type { LimitingCase } from "./limiting-case.js";

/** Raising P at low D, raising D, or checking the finished tune on another pack. */
export type LadderStage = "p" | "d" | "check";

/** A manoeuvre that the pilot flies in a step, and the part of it that is shown. */
export interface LadderManoeuvre extends LimitingCase {
  readonly kind: LadderKind;
  readonly title: string;
  readonly axis: Axis;
  /** Share of the sweep's manoeuvre, 0 to 1, in the first steps; left out where it is the whole, and in older maps. */
  readonly share?: number;
  /** m/s, its fastest descent; left out where it does not descend, and in older maps. */
  readonly descent?: number;
  /** s, first sample's instant, counted from the moment that is judged: the end of the stop, the start of the window. */
  readonly from: number;
  /** s, between samples; each is the mean over its period. */
  readonly period: number;
  /** deg/s, commanded rate of the axis. */
  readonly command: readonly number[];
}

export interface LadderTrial {
  /** Index into the ladder's manoeuvres. */
  readonly manoeuvre: number;
  /** deg/s, as predicted. */
  readonly rate: readonly number[];
  /** deg, attitude off the commanded course; null for a stop, which shows the rate instead. */
  readonly angle: readonly number[] | null;
}

export interface LadderTune {
  readonly p: number;
  readonly d: number;
  /** Controller's own numbers where the model declares a scale. */
  readonly own: { readonly p: number; readonly d: number } | null;
  readonly trials: readonly LadderTrial[];
  /** Measures of the step's own trials, noise in steady flight included; null: absent. */
  readonly measures: Readonly<Partial<Record<MeasureId, number | null>>>;
}

export interface LadderStep {
  readonly stage: LadderStage;
  readonly condition: string;
  /** An axis without a starting tune has no step. */
  readonly axes: Readonly<Partial<Record<Axis, LadderTune>>>;
}

export interface Ladder {
  readonly manoeuvres: readonly LadderManoeuvre[];
  readonly steps: readonly LadderStep[];
}
