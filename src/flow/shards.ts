// One command on several machines: each simulates its share of every plan's grid and writes a shard. All shares together
// are the whole grid, and the command is completed from there as if one machine had simulated it.

import { at } from "../base/at.js";
import { fileProblem, InputError, type Problem } from "../base/problem.js";
import { fileDigest } from "../files/file-digest.js";
import { isFolder } from "../files/folder.js";
import type { Plan } from "../plan/plan.js";
import { gridTasks } from "../run/chunks.js";
import { partOfGrid } from "../run/part-of-grid.js";
import { type Share, tasksOfShare } from "../run/share.js";
import type { Task, TaskResult } from "../run/task.js";
import { taskKeys } from "../run/trial-key.js";
import { type TrialCache, trialCode } from "./cache.js";
import { DRAWS_NAME } from "./draws-file.js";
import { refuseOthers } from "./file-kind.js";
import type { RunMapOptions } from "./run-map.js";
import { runnerFor } from "./runner.js";
import { commandOfShard, readShard, SHARD_NAME, type Shard, type ShardHead, shardName } from "./shard-file.js";
import { headOfShare, type SharedCommand } from "./share-file.js";
import { filesNamed, staleProblem, wholeSet } from "./share-set.js";

/** The head of a shard of the command; `baselines` are the files a gate's plans are compared with. */
export const shardHead = (
  command: SharedCommand,
  plans: readonly Plan[],
  share: Share,
  baselines?: readonly string[],
): ShardHead => ({
  format: "gainscape.shard/1",
  ...headOfShare(command, plans, share, trialCode()),
  ...(baselines === undefined ? {} : { baselines: baselines.map((file) => fileDigest(file)) }),
});

/** For each baseline, whether it is another one than when one of the shards was simulated. */
export const changedBaselines = (shards: readonly Shard[], baselines: readonly string[]): boolean[] =>
  baselines.map((file, k) => {
    const digest = fileDigest(file);
    return shards.some(({ head }) => head.baselines !== undefined && head.baselines[k] !== digest);
  });

/** The share of every plan's grid, each task with its key. Throws RunIncomplete. */
export async function simulateShare(
  plans: readonly Plan[],
  share: Share,
  { onProgress, signal, ...choice }: RunMapOptions,
): Promise<(readonly [key: string, result: TaskResult])[]> {
  const code = trialCode();
  const shares = plans.map((plan) => ({ plan, tasks: tasksOfShare(gridTasks(plan), share) }));
  const of = shares.reduce((sum, { tasks }) => sum + tasks.reduce((trials, { p }) => trials + p.length, 0), 0);
  const done = { trials: 0, cached: 0 };
  const onTrials = (trials: number, source: "simulated" | "cached") => {
    done.trials += trials;
    if (source === "cached") done.cached += trials;
    onProgress?.({ stage: "grid", ...done, of });
  };
  const finished: (readonly [string, TaskResult])[] = [];
  for (const { plan, tasks } of shares) {
    const runner = runnerFor(plan, choice, tasks.length);
    const results = await runner
      .run(tasks, { onTrials, ...(signal === undefined ? {} : { signal }) })
      .finally(() => runner.close());
    const keyOf = taskKeys(plan, code);
    finished.push(...results.map((result, place) => [keyOf(at(tasks, place)), result] as const));
  }
  return finished;
}

/** The command that the shards in these folders are of, where any of them says so. */
export function sharedCommandIn(folders: readonly string[]): SharedCommand | null {
  const files = folders.filter(isFolder).flatMap((folder) => filesNamed(folder, SHARD_NAME));
  return files.map(commandOfShard).find((command) => command !== null) ?? null;
}

/** Every shard in the folders, checked to be the shares of one command: none missing, none twice, none of another. */
export function gatherShards(folders: readonly string[]): Shard[] {
  const files = folders.flatMap((folder) => {
    refuseOthers(folder, [], "a folder that holds shards");
    const found = filesNamed(folder, SHARD_NAME);
    return found.length > 0 || filesNamed(folder, DRAWS_NAME).length > 0 ? found : noShards(folder);
  });
  return files.length > 0 ? wholeSet(files.map(readShard), shardName) : noShards(folders.join(", "));
}

function noShards(folder: string): never {
  const message = "holds no shard, as shard-1-of-4.trials of gainscape sweep --shard 1/4";
  throw new InputError([fileProblem(folder, message)]);
}

/**
 * The trials of the shards as a cache. InputError where the shards are not the whole grid of these plans: files
 * changed since, another version of the program, or shards that hold something else.
 */
export function shardCache(shards: readonly Shard[], plans: readonly Plan[]): TrialCache {
  const code = trialCode();
  const problems = shards.flatMap((shard) => staleProblems(shard, plans, code));
  if (problems.length > 0) throw new InputError(problems);
  const byKey = new Map(shards.flatMap(({ tasks }) => tasks.map(({ key, result }) => [key, result] as const)));
  return {
    of(plan) {
      const keyOf = taskKeys(plan, code);
      const stored = (task: Task) => byKey.get(keyOf(task)) ?? null;
      const own = plans.find(({ variants }) => variants === plan.variants);
      return { get: own === undefined ? stored : partOfGrid(own, stored), put() {}, persistent: false };
    },
    close() {},
  };
}

function staleProblems({ file, head, tasks }: Shard, plans: readonly Plan[], code: string): Problem[] {
  const problem = (message: string) => [fileProblem(file, message)];
  const stale = staleProblem({ file, head }, plans, code);
  if (stale !== null) return [stale];
  const expected = new Set(
    plans.flatMap((plan) => tasksOfShare(gridTasks(plan), head.share).map(taskKeys(plan, code))),
  );
  const present = new Set(tasks.map(({ key }) => key));
  const lacking = [...expected].filter((key) => !present.has(key)).length;
  if (lacking > 0) return problem(`lacks ${lacking} of its ${expected.size} blocks of trials; simulate it again`);
  return present.size > expected.size ? problem("holds trials of another share") : [];
}
