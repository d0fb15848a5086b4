// What can decide whether a point is safe in a draw. A draw moves the map: what holds at a point in a draw holds in the
// model as it is written somewhere near. So a point with nothing nearly safe around it is hopeless in every draw, and a
// manoeuvre that is well within its limits all around a point, or nowhere the worst, need not be simulated there again.
import { at } from "../base/at.js";
import { MEASURES } from "../base/measures.js";
import { around } from "../map/around.js";
import { sustains, type TrialTable, WIDTH } from "../map/trials.js";
import { type Limits, slack } from "../map/verdict.js";
import type { GainGrid } from "../sweep/sweep.js";

/** How far around is looked, as a factor in P and in D. Ours; a test simulates everything and finds the same answer. */
const REACH = { candidate: 1.5, comfortable: 1.3 } as const;
/** How far in all around a point that may be safe its trials are read, as factors one after the other. */
export const TRIALS_READ_AROUND: readonly number[] = [REACH.candidate, REACH.comfortable];
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
  const rooms = [...grid].map(([variant, table]) => roomsOf(variant, table, count, limits));
  const least = leastOf(rooms.map(({ all }) => all));
  const best = around({ p, d }, least, REACH.candidate, Math.max);
  const points = [...best.keys()].filter((point) => at(best, point) >= HOPELESS);
  const worst = coverOf(rooms, points).map(({ variant, all }) => ({
    variant,
    room: around({ p, d }, all, REACH.comfortable, Math.min),
  }));
  const deciding = new Map(
    points.map((point) => {
      const open = worst.filter(({ room }) => at(room, point) < COMFORTABLE);
      open.sort((one, other) => at(one.room, point) - at(other.room, point));
      return [point, open.map(({ variant }) => variant)];
    }),
  );
  return { points, deciding };
}

/** Room of one variant at every point: to its nearest limit, and to the limit of each judged measure it shows. */
interface Rooms {
  readonly variant: number;
  readonly all: Float64Array;
  readonly byMeasure: readonly Float64Array[];
}

const JUDGED = MEASURES.flatMap((measure, column) => (measure.argues === null ? [] : [{ measure, column }]));
/** Room of a measure that a variant does not show. */
const AMPLE = 1;

function roomsOf(variant: number, table: TrialTable, count: number, limits: Limits): Rooms {
  const points = Array.from({ length: count }, (_, point) => point);
  const roomOf = ({ measure, column }: (typeof JUDGED)[number], point: number): number => {
    if (sustains(table, point)) return -1;
    const place = point * WIDTH + column;
    const absent = at(table.absent, place);
    const value = absent === 0 ? at(table.values, place) : null;
    return Math.min(AMPLE, slack(measure, { value, absent, variant }, limits[measure.id]) ?? AMPLE);
  };
  const byMeasure = JUDGED.map((judged) => Float64Array.from(points, (point) => roomOf(judged, point)));
  return { variant, all: leastOf(byMeasure), byMeasure };
}

const leastOf = (rooms: readonly Float64Array[]): Float64Array =>
  at(rooms, 0).map((_, point) => Math.min(...rooms.map((room) => at(room, point))));

/** Room by which a variant may differ from the worst one and stand in for it. */
const AS_GOOD_AS_WORST = 0.1;

/**
 * A few of the variants, such that at every point and for every measure near its limit one of them has, within a small
 * room, the worst of all. The one that is needed at most points comes first.
 */
function coverOf(rooms: readonly Rooms[], points: readonly number[]): readonly Rooms[] {
  const needs = JUDGED.flatMap((_, measure) =>
    points.flatMap((point) => {
      const each = rooms.map(({ byMeasure }) => at(at(byMeasure, measure), point));
      const worst = Math.min(...each);
      return worst >= COMFORTABLE ? [] : [each.flatMap((room, k) => (room <= worst + AS_GOOD_AS_WORST ? [k] : []))];
    }),
  );
  const cover: Rooms[] = [];
  for (let open = needs; open.length > 0; ) {
    const useful = rooms.map(() => 0);
    for (const need of open) for (const k of need) useful[k] = at(useful, k) + 1;
    const next = useful.indexOf(Math.max(...useful));
    cover.push(at(rooms, next));
    open = open.filter((need) => !need.includes(next));
  }
  return cover;
}
