// What can decide whether a point is safe in a draw. A draw moves the map: what holds at a point in a draw holds in the
// model as it is written somewhere near. So a point with nothing nearly safe around it is hopeless in every draw, and a
// manoeuvre that is well within its limits all around a point need not be simulated there again.
import { at } from "../base/at.js";
import { MEASURES } from "../base/measures.js";
import { sustains, type TrialTable, WIDTH } from "../map/trials.js";
import { type Limits, slack } from "../map/verdict.js";
import type { GainGrid } from "../sweep/sweep.js";

/** How far around is looked, as a factor in P and in D. Ours; a test simulates everything and finds the same answer. */
const REACH = { candidate: 1.5, comfortable: 1.3 } as const;
/** Room to the limit, as a share of it, below which a point is hopeless, and above which a manoeuvre is comfortable. */
const HOPELESS = -0.3;
const COMFORTABLE = 0.25;

export interface Candidates {
  /** Points that may be safe in a draw. */
  readonly points: readonly number[];
  /** The variants that may decide there, the least room first. */
  readonly deciding: ReadonlyMap<number, readonly number[]>;
}

export function candidatesOf({ p, d }: GainGrid, grid: ReadonlyMap<number, TrialTable>, limits: Limits): Candidates {
  const count = p.length * d.length;
  const rooms = [...grid].map(([variant, table]) => ({
    variant,
    room: Float64Array.from({ length: count }, (_, point) => roomOf(table, point, limits)),
  }));
  const least = Float64Array.from({ length: count }, (_, point) =>
    Math.min(...rooms.map(({ room }) => at(room, point))),
  );
  const best = around(p, d, least, REACH.candidate, Math.max);
  const points = [...best.keys()].filter((point) => at(best, point) >= HOPELESS);
  const worst = rooms.map(({ variant, room }) => ({ variant, room: around(p, d, room, REACH.comfortable, Math.min) }));
  const deciding = new Map(
    points.map((point) => {
      const open = worst.filter(({ room }) => at(room, point) < COMFORTABLE);
      open.sort((one, other) => at(one.room, point) - at(other.room, point));
      return [point, open.map(({ variant }) => variant)];
    }),
  );
  return { points, deciding };
}

/** The least room of one trial to any limit. */
function roomOf(table: TrialTable, point: number, limits: Limits): number {
  if (sustains(table, point)) return -1;
  let least = 1;
  for (const [column, measure] of MEASURES.entries()) {
    if (measure.argues === null) continue;
    const place = point * WIDTH + column;
    const absent = at(table.absent, place);
    const value = absent === 0 ? at(table.values, place) : null;
    least = Math.min(least, slack(measure, { value, absent, variant: 0 }, limits[measure.id]) ?? 1);
  }
  return least;
}

/** The most extreme value within the factor of each point; neighbours count always. */
function around(
  p: readonly number[],
  d: readonly number[],
  values: Float64Array,
  factor: number,
  extreme: (one: number, other: number) => number,
): Float64Array {
  const columns = p.map((_, column) => withinReach(p, column, factor));
  const rows = d.map((_, row) => withinReach(d, row, factor));
  const alongP = new Float64Array(values.length);
  const both = new Float64Array(values.length);
  for (const [row] of d.entries())
    for (const [column, [from, to]] of columns.entries()) {
      let found = at(values, row * p.length + from);
      for (let k = from + 1; k <= to; k++) found = extreme(found, at(values, row * p.length + k));
      alongP[row * p.length + column] = found;
    }
  for (const [row, [from, to]] of rows.entries())
    for (const [column] of p.entries()) {
      let found = at(alongP, from * p.length + column);
      for (let k = from + 1; k <= to; k++) found = extreme(found, at(alongP, k * p.length + column));
      both[row * p.length + column] = found;
    }
  return both;
}

function withinReach(line: readonly number[], index: number, factor: number): readonly [from: number, to: number] {
  const here = at(line, index);
  let [from, to] = [Math.max(0, index - 1), Math.min(line.length - 1, index + 1)];
  while (from > 0 && at(line, from - 1) >= here / factor) from--;
  while (to < line.length - 1 && at(line, to + 1) <= here * factor) to++;
  return [from, to];
}
