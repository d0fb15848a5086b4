// What to measure in a trial's trace, and the result: per measure a number, or the reason for its absence.

import { ABSENCES, MEASURE_IDS, type MeasureId } from "../base/measures.js";
import type { ScriptKind } from "../base/script-kinds.js";
import type { Traced } from "./reader.js";

/** Control periods, `to` exclusive. */
export interface Window {
  readonly from: number;
  readonly to: number;
  /** Whether heat and commands are summed as well: it takes time, and few scripts need it. */
  readonly effort?: boolean;
}

/** The same for every trial of a variant; instants are control periods. */
export interface Question {
  readonly kind: ScriptKind;
  readonly period: number; // s
  readonly command: Float64Array; // rad/s, commanded rate of the axis under test
  readonly window: Window;
  readonly tail: { readonly from: number; readonly to: number };
  /** Where the commanded rate of a stop begins to leave its level, and that level, rad/s. */
  readonly stop: { readonly from: number; readonly level: number } | null;
  readonly restHeat: number; // A^2, summed over the window without a control demand
}

/** What was recorded of one trial. */
export interface Recording extends Traced {
  /** Largest square of a rate in the trace, (rad/s)^2; NaN where the last rate is NaN. */
  readonly fastest: number;
  /** Control periods of the window in which the torque demand was scaled down. */
  readonly limited: number;
  /** Over the window; null where `effort` is off. */
  readonly effort: {
    /** A^2, summed over rotors and control periods, of the mean over physics steps. */
    readonly heat: number;
    readonly commandRms: number; // about the mean, fraction
  } | null;
}

export type Absence = (typeof ABSENCES)[number];

/** One value per measure in catalogue order; `absent` holds 0, or the index of the reason in ABSENCES. */
export interface Answers {
  readonly values: Float64Array;
  readonly absent: Uint8Array;
}

export const emptyAnswers = (): Answers => ({
  values: new Float64Array(MEASURE_IDS.length),
  absent: new Uint8Array(MEASURE_IDS.length),
});

const indexOf = new Map(MEASURE_IDS.map((id, index) => [id, index]));
const codeOf = new Map(ABSENCES.map((reason, code) => [reason, code]));

const measureIndex = (id: MeasureId): number => indexOf.get(id) as number;
const absenceCode = (reason: Absence): number => codeOf.get(reason) as number;

/** Clears the answers: every measure is absent until it is put. */
export function clear(answers: Answers): void {
  answers.values.fill(0);
  answers.absent.fill(absenceCode("this script does not show it"));
}

/** Writes a value, or the reason there is none. */
export function put(answers: Answers, id: MeasureId, answer: number | Absence): void {
  const index = measureIndex(id);
  answers.values[index] = typeof answer === "number" ? answer : 0;
  answers.absent[index] = typeof answer === "number" ? 0 : absenceCode(answer);
}
