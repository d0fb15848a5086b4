// One variant set up for the plain kernel, one trial at a time, with its trace: for single trials that are shown.

import { driveOf } from "../kernel/drive.js";
import { type Rig, rigOf } from "../kernel/rig.js";
import { type Scratch, scratchFor, simulateTrial, type TrialSums } from "../kernel/simulate-trial.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import type { Answers, Question } from "../response/answer.js";
import { type Traced, traceOf } from "../response/reader.js";
import { evaluateTrial, type Outcome } from "../response/respond.js";
import { questionOf } from "./question.js";

export interface PlainTrials {
  readonly rig: Rig;
  readonly question: Question;
  /** Holds the trace of the latest trial. */
  readonly scratch: Scratch;
  readonly traced: Traced; // its trace
}

/** `noise` of the variant, where it is there already. */
export function plainTrials(plan: TrialPlan, variant: TrialVariant, noise?: Float64Array): PlainTrials {
  const rig = rigOf(plan, variant, (shape) => driveOf(plan, variant, shape, noise));
  const scratch = scratchFor(rig);
  return { rig, question: questionOf(variant, rig), scratch, traced: traceOf(scratch.trace) };
}

/** One trial at SI gains: the same answers, bit for bit, as a task of the same trial. */
export function simulatePlain(trials: PlainTrials, p: number, d: number, answers: Answers): Outcome {
  const { rig, question, scratch, traced } = trials;
  const sums: TrialSums = simulateTrial(rig, p, d, question.window, scratch);
  return evaluateTrial(question, { ...traced, ...sums }, answers);
}
