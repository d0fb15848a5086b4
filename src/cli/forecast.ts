// What a command will take, printed in one line before the long work, and how many workers the machine allows.
import { availableParallelism, freemem } from "node:os";
import { busyWorkers, type Estimate, estimateOf, STEP_NANOSECONDS, type Stage } from "../flow/estimate.js";
import { checkOutput } from "../flow/output.js";
import type { Plan } from "../plan/plan.js";

const MIB = 2 ** 20;
/** More threads than that to a core only take memory. */
const PER_CORE = 4;
const WORKER_MEMORY = 64 * MIB;

export interface ForecastOptions {
  readonly workers?: number;
  readonly quiet?: boolean;
  readonly json?: boolean;
  readonly jsonLines?: boolean;
}

/** The requested number of workers, within what the machine's cores and free memory allow. */
export function grantedWorkers(requested = availableParallelism()): number {
  const memory = process.availableMemory?.() ?? freemem();
  return Math.max(1, Math.min(requested, PER_CORE * availableParallelism(), Math.floor(memory / WORKER_MEMORY)));
}

/** A part of a command's work: a stage of it and the share of that. */
interface Part {
  readonly stage: Stage;
  readonly share: number;
}

/** InputError where the folder has no room for the files; else prints what the plans, or a part of their work, will take. */
export function forecast(
  plans: readonly Plan[],
  folder: string,
  names: readonly string[],
  options: ForecastOptions,
  { stage, share }: Part = { stage: "all", share: 1 },
): void {
  const workers = grantedWorkers(options.workers);
  const each = plans.map((plan) => estimateOf(plan, workers, availableParallelism(), stage));
  const disk = share * total(each, ({ disk }) => disk);
  checkOutput(folder, { names, bytes: disk });
  if (options.quiet || options.json || options.jsonLines) return;
  const most = Math.max(...plans.map((plan) => busyWorkers(plan, workers)));
  const memory = Math.max(...each.map((one) => one.memory));
  const trials = Math.ceil(share * total(each, (one) => one.trials));
  const steps = (share * total(each, (one) => one.steps)) / 1e6;
  const seconds = share * total(each, (one) => one.seconds);
  const atMost = each.some((one) => one.atMost) ? "at most " : "";
  const draws = each.some((one) => one.draws > 0) ? ", draws included" : "";
  process.stderr.write(
    `estimate: ${atMost}${trials} trials, ${steps.toFixed(steps < 10 ? 1 : 0)} million steps; about ${durationText(seconds)} on ${most} ${most === 1 ? "worker" : "workers"} at ${STEP_NANOSECONDS} ns a step of a quadrotor${draws}, less with cached trials; ${Math.ceil(memory / MIB)} MiB of memory, ${Math.ceil(disk / MIB)} MiB of disk\n`,
  );
}

const total = (each: readonly Estimate[], of: (one: Estimate) => number): number =>
  each.reduce((sum, one) => sum + of(one), 0);

const durationText = (seconds: number): string =>
  seconds < 120
    ? `${Math.ceil(seconds)} s`
    : seconds < 7200
      ? `${Math.ceil(seconds / 60)} min`
      : `${Math.ceil(seconds / 3600)} h`;
