// The draws of one command on several machines. Which trials of a draw decide anything follows from the whole grid, so the draws
// are shared out once every share of the grid is there: a second round. A share is every n-th draw, judged at every point;
// what merging needs of it are counts, which add up to those of one machine.
import { at } from "../base/at.js";
import { fileProblem, InputError, type Problem } from "../base/problem.js";
import { pointCount } from "../base/sizes.js";
import { candidatesOf, TRIALS_READ_AROUND } from "../confidence/candidates.js";
import { loopPlaces } from "../confidence/places.js";
import { type SafeDraws, safeDraws } from "../confidence/safe-draws.js";
import { moduleDigest } from "../files/module-digest.js";
import type { Plan } from "../plan/plan.js";
import { gridTasks } from "../run/chunks.js";
import type { Runner, RunOptions } from "../run/runner.js";
import { drawsOfShare, type Share } from "../run/share.js";
import type { Axis } from "../sweep/sweep.js";
import { askOf } from "./ask.js";
import { drawTheories } from "./draw-theories.js";
import { type CountedDraws, choosingDraws, type RunDraws, runDraws } from "./draws.js";
import { DRAWS_NAME, type DrawsHead, type DrawsOfPlan, type DrawsShare, drawsName, readDraws } from "./draws-file.js";
import { gridRun } from "./grid-run.js";
import { runAlongside } from "./run-alongside.js";
import type { MapRequest, RunMapOptions } from "./run-map.js";
import { runnerFor } from "./runner.js";
import { headOfShare, type SharedCommand } from "./share-file.js";
import { filesNamed, staleProblem, wholeSet } from "./share-set.js";
import type { GridPart } from "./tracked-runs.js";

const AXES: readonly Axis[] = ["roll", "pitch"];

/** The digest of the code that judges draws, and of what it has them simulated by. */
const judgingCode = (): string => moduleDigest(new URL("./draw-shares.js", import.meta.url));

export const drawsHead = (command: SharedCommand, plans: readonly Plan[], share: Share): DrawsHead => ({
  format: "gainscape.draws/1",
  ...headOfShare(command, plans, share, judgingCode()),
});

/** The share of every plan's draws; the cache of `how` must hold the trials of every grid. Throws RunIncomplete. */
export async function simulateDraws(
  requests: readonly Pick<MapRequest, "plan" | "model">[],
  share: Share,
  how: RunMapOptions,
): Promise<DrawsOfPlan[]> {
  const done: DrawsOfPlan[] = [];
  for (const request of requests) done.push(await drawsOfPlan(request, share, how));
  return done;
}

async function drawsOfPlan(
  { plan, model }: Pick<MapRequest, "plan" | "model">,
  share: Share,
  how: RunMapOptions,
): Promise<DrawsOfPlan> {
  const draws = runDraws(plan, model.document);
  if (draws === null) return null;
  const runner = runnerFor(draws.plan, how, gridTasks(plan).length);
  try {
    return await judgedDraws(draws, drawsOfShare(draws.uncertainty.draws, share), runner, how);
  } finally {
    await runner.close();
  }
}

async function judgedDraws(
  { plan }: RunDraws,
  judged: readonly number[],
  runner: Runner,
  { onProgress, signal }: RunMapOptions,
): Promise<DrawsOfPlan> {
  const stop = signal === undefined ? {} : { signal };
  const cost = { trials: 0, steps: 0 };
  const ask = askOf(async (tasks) => {
    const results = await runner.run(tasks, stop);
    for (const { outcome, steps } of results) {
      cost.trials += outcome.length;
      cost.steps += steps;
    }
    onProgress?.({ stage: "draws", trials: cost.trials, cached: 0, of: null });
    return results;
  });
  const grid = gridRun(plan, gridFrom(runner, stop), { reach: TRIALS_READ_AROUND });
  await grid.finished;
  const theories = drawTheories(plan.draws ?? [], loopPlaces(plan));
  const { limits, grid: linesOf } = plan.sweep;
  const counted = async (axis: Axis, yieldIfDue: () => Promise<void>) => {
    const [lines, tables] = [linesOf[axis], await grid.tables[axis]];
    const candidates = candidatesOf(lines, tables, limits);
    const theory = theories.map((one) => one[axis]);
    const input = { lines, grid: tables, limits, candidates, theory, draws: judged, ask, yieldIfDue };
    const { counts, trials } = await safeDraws(input);
    return { trials, counts: [...counts] };
  };
  const [, [roll, pitch]] = await runAlongside(Promise.resolve(), (yieldIfDue) =>
    Promise.all([counted("roll", yieldIfDue), counted("pitch", yieldIfDue)]),
  );
  return { steps: cost.steps, roll, pitch };
}

/** The grid's trials as a run asks for them, all of them stored. */
const gridFrom = (runner: Runner, stop: RunOptions): GridPart => ({
  async run(tasks, onResult) {
    const results = await runner.run(tasks, stop);
    for (const [k, task] of tasks.entries()) onResult(task, at(results, k));
    return results;
  },
  leaveOut() {},
});

/** Every share of draws in the folders, none where the draws were not shared out. InputError where they do not belong together. */
export function gatherDraws(folders: readonly string[]): DrawsShare[] {
  const files = folders.flatMap((folder) => filesNamed(folder, DRAWS_NAME));
  return files.length === 0 ? [] : wholeSet(files.map(readDraws), drawsName);
}

/** What the draws of each plan came to on all machines. InputError where the shares are not of these plans. */
export function drawsOfShares(
  shares: readonly DrawsShare[],
  plans: readonly Plan[],
): (plan: Plan) => CountedDraws | null {
  const code = judgingCode();
  const problems = shares.flatMap((share) => staleProblem(share, plans, code) ?? foreignCounts(share, plans) ?? []);
  if (problems.length > 0) throw new InputError(problems);
  return (plan) => {
    const place = plans.findIndex(({ digests }) => digests.plan === plan.digests.plan);
    const parts = shares.flatMap((share) => share.plans[place] ?? []);
    return parts.length === 0 ? null : added(parts);
  };
}

/** Why the counts are none of the share of these plans; null where they are. */
function foreignCounts({ file, head: { share }, plans: counted }: DrawsShare, plans: readonly Plan[]): Problem | null {
  const fits = plans.every((plan, place) => {
    const part = counted[place] ?? null;
    const draws = choosingDraws(plan);
    if (part === null) return draws === 0;
    const most = drawsOfShare(draws, share).length;
    return AXES.every((axis) => {
      const { counts } = part[axis];
      return counts.length === pointCount(plan.sweep.grid[axis]) && counts.every((count) => count <= most);
    });
  });
  return fits ? null : fileProblem(file, "holds draws of another share");
}

function added(parts: readonly NonNullable<DrawsOfPlan>[]): CountedDraws {
  const total = (of: (part: NonNullable<DrawsOfPlan>) => number) => parts.reduce((sum, part) => sum + of(part), 0);
  const ofAxis = (axis: Axis): SafeDraws => ({
    counts: Uint16Array.from(at(parts, 0)[axis].counts, (_, point) => total((part) => at(part[axis].counts, point))),
    trials: total((part) => part[axis].trials),
  });
  return { steps: total(({ steps }) => steps), roll: ofAxis("roll"), pitch: ofAxis("pitch") };
}
