// What is asked of a trial's trace and what it answers: one number or the reason for its absence per measure.

import { ABSENCES, MEASURE_IDS, type MeasureId } from "../base/measures.js";
import type { Traced } from "./reader.js";

export type QuestionKind = "nudge" | "stop" | "blip" | "wobble" | "hover";

/** The same for every trial of a variant; instants are control periods. */
export interface Question {
  readonly kind: QuestionKind;
  readonly period: number; // s
  readonly command: Float64Array; // rad/s, commanded rate of the axis under test
  /** Heat and commands are summed where `effort` asks for them. */
  readonly window: { readonly from: number; readonly to: number; readonly effort?: boolean };
  readonly tail: { readonly from: number; readonly to: number };
  /** Where the commanded rate of a stop begins to leave its level, and that level, rad/s. */
  readonly stop: { readonly from: number; readonly level: number } | null;
  readonly restHeat: number; // A^2, summed over the window without a control demand
}

/** What was recorded of one trial; sums run over the window. */
export interface Recording extends Traced {
  readonly fastest: number; // largest square in the trace, (rad/s)^2; no number where the last one is none
  readonly limited: number; // control periods
  /** A^2 and fraction; null where they were not summed. */
  readonly effort: { readonly heat: number; readonly commandRms: number } | null;
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

/** Forgets what was answered: nothing is shown until it is put. */
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
