// What a command will take, said in one line before its long work, and how many workers the machine has for it.
import { availableParallelism, freemem } from "node:os";
import { busyWorkers, type Estimate, estimateOf } from "../flow/estimate.js";
import { checkOutput } from "../flow/write.js";
import type { Plan } from "../plan/plan.js";

const MIB = 2 ** 20;
/** More threads than that to a core only take memory. */
const PER_CORE = 4;
const WORKER_MEMORY = 64 * MIB;

export interface Asked {
  readonly workers?: number;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

/** Workers that are of use: as asked, within what cores and free memory of the machine allow. */
export function grantedWorkers(asked = availableParallelism()): number {
  const memory = process.availableMemory?.() ?? freemem();
  return Math.max(1, Math.min(asked, PER_CORE * availableParallelism(), Math.floor(memory / WORKER_MEMORY)));
}

/** Refuses a folder the files have no room in, and tells what the plans, or a share of them, will take. InputError. */
export function forecast(
  plans: readonly Plan[],
  folder: string,
  names: readonly string[],
  asked: Asked,
  share = 1,
): void {
  const workers = grantedWorkers(asked.workers);
  const each = plans.map((plan) => estimateOf(plan, workers, availableParallelism()));
  const disk = share * total(each, ({ disk }) => disk);
  checkOutput(folder, { names, bytes: disk });
  if (asked.quiet || asked.json) return;
  const most = Math.max(...plans.map((plan) => busyWorkers(plan, workers)));
  const memory = Math.max(...each.map((one) => one.memory));
  const trials = Math.ceil(share * total(each, (one) => one.trials));
  const steps = (share * total(each, (one) => one.steps)) / 1e6;
  const seconds = share * total(each, (one) => one.seconds);
  process.stderr.write(
    `estimate: ${trials} trials, ${steps.toFixed(steps < 10 ? 1 : 0)} million steps; about ${spoken(seconds)} on ${most} ${most === 1 ? "worker" : "workers"} at 15 ns a step of a quadrotor, less with trials kept; ${Math.ceil(memory / MIB)} MiB of memory, ${Math.ceil(disk / MIB)} MiB of disk\n`,
  );
}

const total = (each: readonly Estimate[], of: (one: Estimate) => number): number =>
  each.reduce((sum, one) => sum + of(one), 0);

const spoken = (seconds: number): string =>
  seconds < 120
    ? `${Math.ceil(seconds)} s`
    : seconds < 7200
      ? `${Math.ceil(seconds / 60)} min`
      : `${Math.ceil(seconds / 3600)} h`;
