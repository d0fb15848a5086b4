// Results of the grid's tasks collected by axis, so that one axis can be reduced while the other is simulated.
import { at } from "../base/at.js";
import type { TrialTable } from "../map/trials.js";
import type { Plan, Variant } from "../plan/plan.js";
import { joined } from "../run/chunks.js";
import type { Task, TaskResult } from "../run/task.js";
import type { Axis } from "../sweep/sweep.js";

const AXES: readonly Axis[] = ["roll", "pitch"];

/** The tasks sorted by axis, otherwise in their order. */
export const axisByAxis = (plan: Plan, tasks: readonly Task[]): Task[] =>
  AXES.flatMap((axis) => tasks.filter(({ variant }) => at(plan.variants, variant).axis === axis));

/** Per variant of an axis its trials over the grid, [d * p.length + p]. */
export type GridTables = ReadonlyMap<number, TrialTable>;

export interface GridByAxis {
  /** Resolved as soon as every task of the axis is done. */
  readonly tables: Readonly<Record<Axis, Promise<GridTables>>>;
  put(task: Task, result: TaskResult): void;
}

export function gridByAxis(plan: Plan, tasks: readonly Task[]): GridByAxis {
  const ofAxis = (axis: Axis) => {
    const variants = plan.variants.filter((variant) => variant.axis === axis);
    const mine = tasks.filter(({ variant }) => at(plan.variants, variant).axis === axis);
    return tablesOf(variants, mine);
  };
  const [roll, pitch] = [ofAxis("roll"), ofAxis("pitch")];
  return {
    tables: { roll: roll.tables, pitch: pitch.tables },
    put(task, result) {
      const { axis } = at(plan.variants, task.variant);
      (axis === "roll" ? roll : pitch).put(task, result);
    },
  };
}

function tablesOf(variants: readonly Variant[], tasks: readonly Task[]) {
  const found = new Map<Task, TaskResult>();
  let settle: (tables: GridTables) => void = () => {};
  const tables = new Promise<GridTables>((resolve) => {
    settle = resolve;
  });
  const done = (): void => {
    if (found.size < tasks.length) return;
    const results = ({ index }: Variant) =>
      tasks.filter(({ variant }) => variant === index).map((task) => found.get(task) as TaskResult);
    settle(new Map(variants.map((variant) => [variant.index, joined(results(variant))])));
  };
  done(); // an axis without variants
  return {
    tables,
    /** A second result of the same task is ignored. */
    put(task: Task, result: TaskResult): void {
      if (found.has(task)) return;
      found.set(task, result);
      done();
    },
  };
}
