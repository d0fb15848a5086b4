// The map's requests for trials as tasks of the runner: grouped by trial setup, and answered in their own order.
import { at } from "../base/at.js";
import type { Ask, TrialRequest, TrialTable } from "../map/trials.js";
import { joined, tasksOf } from "../run/chunks.js";
import type { Task, TaskResult } from "../run/task.js";

/** Answers requests by what `run` makes of them. */
export function askOf(run: (tasks: readonly Task[]) => Promise<readonly TaskResult[]>, pointsPerTask?: number): Ask {
  return async (requests) => {
    const groups = grouped(requests);
    const tasks = [...groups.values()].flatMap(({ variant, points, ...others }) =>
      tasksOf(variant, points, pointsPerTask, others),
    );
    return inOrder(requests, groups, joined(await run(tasks)));
  };
}

/** Requests that share a trial setup. */
interface Group extends Pick<TrialRequest, "variant" | "seed" | "draw"> {
  readonly points: [p: number, d: number, i?: number][];
}

const setupOf = ({ variant, seed, draw }: TrialRequest): string => `${variant} ${seed ?? ""} ${draw ?? ""}`;

function grouped(requests: readonly TrialRequest[]): Map<string, Group> {
  const groups = new Map<string, Group>();
  for (const request of requests) {
    const group = groups.get(setupOf(request)) ?? { ...request, points: [] };
    groups.set(setupOf(request), group);
    group.points.push(request.i === undefined ? [request.p, request.d] : [request.p, request.d, request.i]);
  }
  return groups;
}

/** Puts results that were run group by group back into the order of the requests. */
function inOrder(requests: readonly TrialRequest[], groups: ReadonlyMap<string, Group>, table: TrialTable): TrialTable {
  const next = new Map<string, number>();
  let first = 0;
  for (const [key, { points }] of groups) {
    next.set(key, first);
    first += points.length;
  }
  const width = table.values.length / Math.max(1, table.outcome.length);
  const sorted = {
    values: new Float64Array(table.values.length),
    absent: new Uint8Array(table.absent.length),
    outcome: new Uint8Array(table.outcome.length),
  };
  for (const [row, request] of requests.entries()) {
    const from = next.get(setupOf(request)) ?? 0;
    next.set(setupOf(request), from + 1);
    sorted.values.set(table.values.subarray(from * width, (from + 1) * width), row * width);
    sorted.absent.set(table.absent.subarray(from * width, (from + 1) * width), row * width);
    sorted.outcome[row] = at(table.outcome, from);
  }
  return sorted;
}
