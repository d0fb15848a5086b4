// Requests of the map for trials, and their results; the caller of the map decides how trials are run.
import { MEASURE_IDS } from "../base/measures.js";

/** One trial: a variant of the plan, or of one of its draws, at SI gains. */
export interface TrialRequest {
  readonly variant: number;
  readonly p: number;
  readonly d: number;
  /** Where it is not the model's. All requests for a variant give one, or none does. */
  readonly i?: number;
  /** Where it is not the plan's. */
  readonly seed?: number;
  /** Index into the plan's draws; left out: the model as it is written. */
  readonly draw?: number;
}

/** Row-major [trial][measure]; absent indexes ABSENCES; outcome 0 dies out, 1 sustained, 2 diverged, 3 at rest, 4 not simulated. */
export interface TrialTable {
  readonly values: Float64Array;
  readonly absent: Uint8Array;
  readonly outcome: Uint8Array;
}

/** Simulates the requests and answers in their order. */
export type Ask = (requests: readonly TrialRequest[]) => Promise<TrialTable>;

export const WIDTH = MEASURE_IDS.length;

/** Whether the trial's oscillation does not die out. */
export const sustains = ({ outcome }: Pick<TrialTable, "outcome">, trial: number): boolean =>
  outcome[trial] === 1 || outcome[trial] === 2;

/** Whether nothing moved the axis, so that the trial says nothing of it. */
export const isAtRest = ({ outcome }: Pick<TrialTable, "outcome">, trial: number): boolean => outcome[trial] === 3;

/** A place of a grid that was left out, since a nudge alone decides there. */
export const NOT_SIMULATED = 4;

export const isSimulated = ({ outcome }: Pick<TrialTable, "outcome">, trial: number): boolean =>
  outcome[trial] !== NOT_SIMULATED;
