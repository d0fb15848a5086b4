// One variant ready for the plain kernel, a trial at a time, with its trace at hand: for single flights that are shown.
import { type Flight, fly, type Scratch, scratchFor } from "../kernel/fly.js";
import { type Rig, rigOf } from "../kernel/rig.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { Answers, Question } from "../response/answer.js";
import { type Traced, traced } from "../response/reader.js";
import { type Outcome, respond } from "../response/respond.js";
import { questionOf } from "./question.js";

export interface PlainBench {
  readonly rig: Rig;
  readonly question: Question;
  /** Holds the trace of the trial flown last. */
  readonly scratch: Scratch;
  readonly recorded: Traced; // its trace
}

export function plainBench(plan: Plan, variant: Variant): PlainBench {
  const rig = rigOf(plan, variant);
  const scratch = scratchFor(rig);
  return { rig, question: questionOf(variant, rig), scratch, recorded: traced(scratch.trace) };
}

/** Flies SI gains; the same answers, bit for bit, as a task of the same trial. */
export function flyPlain(bench: PlainBench, p: number, d: number, answers: Answers): Outcome {
  const { rig, question, scratch, recorded } = bench;
  const flight: Flight = fly(rig, p, d, question.window, scratch);
  return respond(question, { ...recorded, ...flight }, answers);
}
