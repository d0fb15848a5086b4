// The unit of work: some points of one variant. A pure function of plan and task, wherever it runs.
import { at } from "../base/at.js";
import { MEASURE_IDS } from "../base/measures.js";
import { noiseKey, variantBursts } from "../kernel/noise.js";
import { type SimulateMany, simulateManyOf } from "../kernel/simulate-trial.js";
import type { Bursts } from "../kernel/wash.js";
import type { TrialPlan } from "../plan/plan.js";
import { emptyAnswers, type Question } from "../response/answer.js";
import { divergedAt, evaluateTrial, type Outcome } from "../response/respond.js";
import { drawnPlan } from "./drawn-plan.js";
import { type KernelFor, kernelsOf } from "./kernels.js";
import { type SetupOptions, setupCache } from "./setup-cache.js";

/** Gains in SI: P fraction per (rad/s), D fraction per (rad/s^2), I fraction per rad. */
export interface Task {
  readonly variant: number;
  readonly p: Float64Array;
  readonly d: Float64Array;
  /** Where it is not the model's. */
  readonly i?: Float64Array;
  /** Where it is not the plan's. */
  readonly seed?: number;
  /** Index into the plan's draws; left out: the model as it is written. */
  readonly draw?: number;
}

export const OUTCOMES: readonly Outcome[] = ["dies out", "sustained", "diverged", "at rest"];

/** Row-major [trial][measure]; absent holds indices into ABSENCES; outcome indexes OUTCOMES. */
export interface TaskResult {
  readonly values: Float64Array;
  readonly absent: Uint8Array;
  readonly outcome: Uint8Array;
  /** s that each trial lasted: its whole script, or up to where it diverged. */
  readonly until: Float64Array;
  readonly steps: number; // simulated control periods
}

/** Makes a runner of tasks of one plan; it caches trial setups, since a search returns to every variant round after round. `shared`: what all its threads share. */
export function tasksOn(
  plan: TrialPlan,
  kernelFor: KernelFor,
  options: Pick<SetupOptions, "shared"> = {},
): (task: Task) => TaskResult {
  let setups = { draw: -1, of: setupCache(plan, options) };
  const kernelOf = kernelsOf(kernelFor);
  // Chance is the same in every draw, so what it decides of a wash is computed once.
  const bursts = new Map<string, Bursts | null>();
  const burstsOf = (index: number, seed: number): Bursts | null => {
    const variant = at(plan.variants, index);
    const key = `${noiseKey(variant)} ${seed}`;
    const seeded = seed === plan.sweep.seed ? plan : { ...plan, sweep: { ...plan.sweep, seed } };
    const found = bursts.get(key);
    const made = found === undefined ? variantBursts(seeded, variant) : found;
    bursts.set(key, made);
    return made;
  };
  let setup: TaskSetup | null = null;
  return (task) => {
    const { variant, seed = plan.sweep.seed, draw = -1 } = task;
    // Tasks come draw by draw: the setups of one draw are no use to the next.
    if (setups.draw !== draw)
      setups = { draw, of: setupCache(drawnPlan(plan, task), draw < 0 ? options : { burstsOf }) };
    if (setup?.variant !== variant || setup.seed !== seed || setup.draw !== draw) {
      const { rig, question } = setups.of(variant, seed);
      setup = { variant, seed, draw, steps: rig.steps, question, simulateMany: simulateManyOf(rig, kernelOf(rig)) };
    }
    return runTask(setup, task);
  };
}

interface TaskSetup {
  readonly variant: number;
  readonly seed: number;
  readonly draw: number;
  readonly steps: number;
  readonly simulateMany: SimulateMany;
  readonly question: Question;
}

function runTask({ steps, simulateMany, question }: TaskSetup, task: Task): TaskResult {
  const count = task.p.length;
  const width = MEASURE_IDS.length;
  const result = {
    values: new Float64Array(count * width),
    absent: new Uint8Array(count * width),
    outcome: new Uint8Array(count),
    until: new Float64Array(count).fill(steps * question.period),
    steps: count * steps,
  };
  const answers = emptyAnswers();
  simulateMany(task, question.window, (i, recording) => {
    const outcome = evaluateTrial(question, recording, answers);
    result.values.set(answers.values, i * width);
    result.absent.set(answers.absent, i * width);
    result.outcome[i] = OUTCOMES.indexOf(outcome);
    if (outcome === "diverged") result.until[i] = (divergedAt(recording.trace) ?? steps) * question.period;
  });
  return result;
}
