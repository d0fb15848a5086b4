// Looks for one safe tune of a plan without simulating its whole grid: theory's margins first, then trials where they hold,
// then from the best of them on.
import { at } from "../base/at.js";
import { NOBODY } from "../map/decider.js";
import { marginRoom, type PointResult, type PointTrials, simulatePoints } from "../map/simulate-point.js";
import { leastRoom } from "../map/verdict.js";
import type { Axis } from "../sweep/sweep.js";

export interface Tune {
  readonly p: number; // SI
  readonly d: number;
  /** Least room to any limit or wanted margin, as a share of it; below 0: not safe. */
  readonly room: number;
}

/** Room with which a tune counts as found: one that is just safe would be gone with the next change. */
export const COMFORTABLE = 0.05;
const LINES = 16; // per side, of the grid on which margins are looked at
const FIRST = 15; // points simulated before the search follows the best, besides the one to beat
const ROUNDS = 5;
const AROUND = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [-1, -1],
  [1, -1],
  [-1, 1],
] as const;

/**
 * The roomiest tune that the search came by within the axis's grid; null where it is not safe, or theory finds the wanted margins
 * nowhere. `toBeat` is the best without the change: where nothing gains on it, the search ends early.
 */
export async function findSafeTune(trials: PointTrials, axis: Axis, toBeat: Tune): Promise<Tune | null> {
  const { plan, theory } = trials;
  const grid = plan.sweep.grid[axis];
  const [p, d] = [thinned(grid.p, LINES), thinned(grid.d, LINES)];
  const keepsMargins = (tune: Place) => marginRoom(plan, theory.margins(tune.p, tune.d)) >= 0;
  const roomy = d.flatMap((y) => p.map((x) => ({ p: x, d: y }))).filter(keepsMargins);
  if (roomy.length === 0) return null;
  const first = [{ p: toBeat.p, d: toBeat.d }, ...thinned(roomy, FIRST)];
  let best = roomiest(trials, await simulatePoints(trials, first));
  if (best.room <= toBeat.room) return null;
  let [stepP, stepD] = [spanOf(p) / (p.length - 1), spanOf(d) / (d.length - 1)];
  const within = (tune: Place) =>
    tune.p >= at(p, 0) && tune.p <= at(p, p.length - 1) && tune.d >= at(d, 0) && tune.d <= at(d, d.length - 1);
  for (let round = 0; round < ROUNDS && best.room < COMFORTABLE; round++) {
    const { result } = best;
    const places = AROUND.map(([x, y]) => ({ p: result.p + x * stepP, d: result.d + y * stepD }));
    const next = places.filter((tune) => within(tune) && keepsMargins(tune));
    const found = next.length === 0 ? best : roomiest(trials, await simulatePoints(trials, next));
    if (found.room > best.room) best = found;
    else [stepP, stepD] = [stepP / 2, stepD / 2];
  }
  const { result, room } = best;
  return result.safe ? { p: result.p, d: result.d, room } : null;
}

type Place = Pick<Tune, "p" | "d">;

interface Rated {
  readonly result: PointResult;
  readonly room: number;
}

const roomiest = (trials: PointTrials, results: readonly PointResult[]): Rated =>
  results
    .map((result) => ({ result, room: roomOf(trials, result) }))
    .reduce((best, one) => (one.room > best.room ? one : best));

/** The least room to any limit or wanted margin, as a share of it; less than -1 where an oscillation does not die out. */
function roomOf({ plan }: PointTrials, { worst, margins, sustainedBy }: PointResult): number {
  if (sustainedBy !== NOBODY) return -2;
  return Math.min(marginRoom(plan, margins), leastRoom(worst, plan.sweep.limits)?.room ?? 1);
}

/** At most `count` items, the first and the last among them, evenly between. */
function thinned<T>(items: readonly T[], count: number): T[] {
  if (items.length <= count) return [...items];
  return Array.from({ length: count }, (_, k) => at(items, Math.round((k * (items.length - 1)) / (count - 1))));
}

const spanOf = (line: readonly number[]): number => at(line, line.length - 1) - at(line, 0);
