// The part of a map worth drawing: the swept range as far as anything is stable, and a strip beyond it.
import type { AxisMap, Grid, GridLines, StabilityMap } from "../map/format.js";
import { AXES, type Axis } from "../words/axes.js";

const STRIP = 0.1; // share of the swept range shown beyond the last stable point

interface Counts {
  readonly d: number;
  readonly p: number;
}

/**
 * The map with the grid lines past the strip left out: the same ones for `otherMaps`, and for both axes where they share
 * their lines.
 */
export function viewOf(map: StabilityMap, otherMaps: readonly StabilityMap[] = []): StabilityMap {
  const axes = AXES.map((name) => {
    const most = (along: "d" | "p") => Math.max(...[map, ...otherMaps].map((one) => linesToShow(one, name, along)));
    return [name, cut(map.axes[name], { d: most("d"), p: most("p") })] as const;
  });
  return { ...map, axes: Object.fromEntries(axes) as Record<Axis, AxisMap> };
}

/** What every picture of an axis over P and D spans, so that their lines can be laid upon each other. */
export const sharedGrid = (map: StabilityMap, name: Axis): GridLines => viewOf(map).axes[name].grid;

/** How many grid lines of an axis to show: all where nothing at all is stable. */
function linesToShow({ axes }: StabilityMap, name: Axis, along: "d" | "p"): number {
  const lines = axes[name].grid[along];
  const all = lines.length;
  const alike = AXES.filter((other) => sameLines(axes[other].grid[along], lines));
  const last = Math.max(...alike.map((other) => lastShown(axes[other], along)));
  return last < 0 ? all : Math.min(all, last + 1 + Math.ceil(STRIP * all));
}

const sameLines = (one: readonly number[], other: readonly number[]): boolean =>
  one.length === other.length && one.every((line, k) => line === other[k]);

/** The last grid line needed to show every stable point, and a pinned tune beyond them. */
function lastShown({ grid, verdict, pinned }: AxisMap, along: "d" | "p"): number {
  const last = lastStable(verdict, along);
  if (last < 0 || pinned === undefined) return last;
  const beyond = grid[along].findIndex((line) => line >= pinned[along]);
  return Math.max(last, beyond < 0 ? grid[along].length - 1 : beyond);
}

function lastStable(verdict: AxisMap["verdict"], along: "d" | "p"): number {
  const lastPerRow = verdict.map((row) => row.findLastIndex((one) => one !== "sustained"));
  return along === "p" ? Math.max(...lastPerRow) : lastPerRow.findLastIndex((last) => last >= 0);
}

const AROUND = 3; // grid lines shown about safe ground

/**
 * An axis about its safe ground alone, and that of others on the same lines, so that what lies in it can be told apart; all of it
 * where there is none.
 */
export function aboutSafe(axis: AxisMap, others: readonly AxisMap[] = []): AxisMap {
  const { d, p } = axis.grid;
  const shown = [axis, ...others];
  const rows = d.flatMap((_, i) => (shown.some(({ safe }) => safe[i]?.includes(true)) ? [i] : []));
  const columns = p.flatMap((_, j) => (shown.some(({ safe }) => safe.some((row) => row[j] === true)) ? [j] : []));
  const [left, right, bottom, top] = [rows[0], rows.at(-1), columns[0], columns.at(-1)];
  if (left === undefined || right === undefined || bottom === undefined || top === undefined) return axis;
  const to = { d: Math.min(d.length, right + AROUND + 1), p: Math.min(p.length, top + AROUND + 1) };
  return cut(axis, to, { d: Math.max(0, left - AROUND), p: Math.max(0, bottom - AROUND) });
}

/** The axis without the grid lines before `from`, and with as many of those before an index as are given. */
function cut(axis: AxisMap, { d, p }: Counts, from: Counts = { d: 0, p: 0 }): AxisMap {
  const table = <T>(grid: Grid<T>): Grid<T> => grid.slice(from.d, d).map((row) => row.slice(from.p, p));
  const tables = <T, K extends string>(of: Readonly<Record<K, Grid<T>>>) =>
    Object.fromEntries(Object.entries<Grid<T>>(of).map(([key, grid]) => [key, table(grid)])) as Record<K, Grid<T>>;
  const near = <T extends { readonly d: number }>(points: readonly T[]) =>
    points.filter((point) => point.d <= (axis.grid.d[d - 1] ?? 0) && point.d >= (axis.grid.d[from.d] ?? 0));
  const { sustained, overshoot, settling, byVariant } = axis.boundary;
  return {
    ...axis,
    grid: { d: axis.grid.d.slice(from.d, d), p: axis.grid.p.slice(from.p, p) },
    verdict: table(axis.verdict),
    reasons: table(axis.reasons),
    decidedBy: table(axis.decidedBy),
    measures: tables(axis.measures),
    absent: tables(axis.absent),
    margins: tables(axis.margins),
    boundary: { byVariant, sustained: near(sustained), overshoot: near(overshoot), settling: near(settling) },
    safe: table(axis.safe),
    ...(axis.confidence === undefined
      ? {}
      : {
          confidence: {
            ...axis.confidence,
            safeDraws: table(axis.confidence.safeDraws),
            band: near(axis.confidence.band),
          },
        }),
  };
}
