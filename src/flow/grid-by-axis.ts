// Results of the grid's tasks collected by axis, so that one axis can be reduced while the other is simulated.
import { at } from "../base/at.js";
import { overWholeGrid } from "../map/settled.js";
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

/** Per axis and point 1 where trials were left out. */
export type SettledByAxis = Readonly<Record<Axis, Uint8Array>>;

export interface GridByAxis {
  /** Resolved as soon as every task of the axis is done. */
  readonly tables: Readonly<Record<Axis, Promise<GridTables>>>;
  /** What will be put; to be called once, before the first of it or after. */
  expect(tasks: readonly Task[], settled: SettledByAxis): void;
  put(task: Task, result: TaskResult): void;
}

export function gridByAxis(plan: Plan): GridByAxis {
  const ofAxis = (axis: Axis) => tablesOf(plan.variants.filter((variant) => variant.axis === axis));
  const byAxis = { roll: ofAxis("roll"), pitch: ofAxis("pitch") };
  const axisOf = ({ variant }: Task) => at(plan.variants, variant).axis;
  return {
    tables: { roll: byAxis.roll.tables, pitch: byAxis.pitch.tables },
    expect(tasks, settled) {
      for (const axis of AXES)
        byAxis[axis].expect(
          tasks.filter((task) => axisOf(task) === axis),
          settled[axis],
        );
    },
    put(task, result) {
      byAxis[axisOf(task)].put(task, result);
    },
  };
}

function tablesOf(variants: readonly Variant[]) {
  const found = new Map<Task, TaskResult>();
  let expected: { readonly tasks: readonly Task[]; readonly settled: Uint8Array } | null = null;
  let settle: (tables: GridTables) => void = () => {};
  const tables = new Promise<GridTables>((resolve) => {
    settle = resolve;
  });
  const done = (): void => {
    if (expected === null || found.size < expected.tasks.length) return;
    const { tasks, settled } = expected;
    const tableOf = (variant: Variant) => {
      const mine = tasks.filter((task) => task.variant === variant.index);
      return overWholeGrid(variant, settled, joined(mine.map((task) => found.get(task) as TaskResult)));
    };
    settle(new Map(variants.map((variant) => [variant.index, tableOf(variant)])));
  };
  return {
    tables,
    expect(tasks: readonly Task[], settled: Uint8Array): void {
      expected = { tasks, settled };
      done();
    },
    /** A second result of the same task is ignored. */
    put(task: Task, result: TaskResult): void {
      if (found.has(task)) return;
      found.set(task, result);
      done();
    },
  };
}
