// Tasks of some points of a plan's grid, answered from results of the whole grid's: a shard holds every trial of its share, while
// the run it is merged into asks for those alone that can decide.
import { at } from "../base/at.js";
import { MEASURE_IDS } from "../base/measures.js";
import { pointCount } from "../base/sizes.js";
import type { Plan } from "../plan/plan.js";
import { gridTasks, pointsPerGridTask } from "./chunks.js";
import type { Task, TaskResult } from "./task.js";

const WIDTH = MEASURE_IDS.length;

/** `stored` finds results of tasks as `gridTasks` makes them; what is returned finds any of their points, and what `stored` finds. */
export function partOfGrid(plan: Plan, stored: (task: Task) => TaskResult | null): (task: Task) => TaskResult | null {
  const whole = onceEach(gridTasks(plan), stored);
  const places = { roll: placesOn(plan.sweep.grid.roll), pitch: placesOn(plan.sweep.grid.pitch) };
  return (task) => {
    const found = stored(task);
    const variant = plan.variants[task.variant];
    if (found !== null || variant === undefined || isElsewhere(task)) return found;
    const size = pointsPerGridTask(pointCount(plan.sweep.grid[variant.axis]));
    const rows = [...task.p].map((p, trial) => {
      const point = places[variant.axis](p, at(task.d, trial));
      const holder = point === null ? null : whole(task.variant, Math.floor(point / size));
      return point === null || holder === null ? null : { holder, row: point % size };
    });
    return rows.every((row) => row !== null) ? joinedRows(rows) : null;
  };
}

/** What is stored of a variant's n-th task of the whole grid, looked up when it is first asked for. */
function onceEach(tasks: readonly Task[], stored: (task: Task) => TaskResult | null) {
  const byVariant = new Map<number, (() => TaskResult | null)[]>();
  for (const task of tasks) {
    let result: TaskResult | null | undefined;
    const lookUp = () => {
      if (result === undefined) result = stored(task);
      return result;
    };
    byVariant.set(task.variant, [...(byVariant.get(task.variant) ?? []), lookUp]);
  }
  return (variant: number, n: number): TaskResult | null => byVariant.get(variant)?.[n]?.() ?? null;
}

/** Of another seed, another I or another craft: on no grid. */
const isElsewhere = ({ seed, draw, i }: Task): boolean => seed !== undefined || draw !== undefined || i !== undefined;

/** The place of a point among those of a grid, [d * p.length + p]; null: it is none of them. */
function placesOn({ p, d }: Plan["sweep"]["grid"]["roll"]): (pGain: number, dGain: number) => number | null {
  const [columns, rows] = [p, d].map((line) => new Map(line.map((gain, place) => [gain, place])));
  return (pGain, dGain) => {
    const [column, row] = [columns?.get(pGain), rows?.get(dGain)];
    return column === undefined || row === undefined ? null : row * p.length + column;
  };
}

function joinedRows(rows: readonly { readonly holder: TaskResult; readonly row: number }[]): TaskResult {
  const result = {
    values: new Float64Array(rows.length * WIDTH),
    absent: new Uint8Array(rows.length * WIDTH),
    outcome: Uint8Array.from(rows, ({ holder, row }) => at(holder.outcome, row)),
    until: Float64Array.from(rows, ({ holder, row }) => at(holder.until, row)),
    steps: rows.reduce((sum, { holder }) => sum + holder.steps / holder.outcome.length, 0),
  };
  for (const [trial, { holder, row }] of rows.entries()) {
    result.values.set(holder.values.subarray(row * WIDTH, (row + 1) * WIDTH), trial * WIDTH);
    result.absent.set(holder.absent.subarray(row * WIDTH, (row + 1) * WIDTH), trial * WIDTH);
  }
  return result;
}
