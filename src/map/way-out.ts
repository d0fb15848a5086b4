// Which way the gains must change where a limit is passed: soft and slow is too little P, sharp and quick is too much of it
// (common practice, no source). The effect of more P on the measure distinguishes them; its size and frequency do not.
import { at } from "../base/at.js";
import type { Measure } from "../base/measures.js";
import { NOBODY } from "./decider.js";
import { FAILING, type WorstPoint } from "./worst.js";

/** Worst cases met when one gain alone is changed, the nearest first; null: there an oscillation does not die out. */
export type Met = readonly (WorstPoint | null)[];

/** What lies around a place of the gain plane. */
export interface Surroundings {
  readonly moreP: Met;
  readonly lessP: Met;
  readonly moreD: Met;
  readonly lessD: Met;
}

/** The surroundings of each point of a grid, [d * width + p]; `sustainedBy` as `judge` takes it. */
export function surroundingsOn(
  width: number,
  worst: readonly WorstPoint[],
  sustainedBy: readonly number[],
): (point: number) => Surroundings {
  const met = worst.map((point, i) => (sustainedBy[i] === NOBODY ? point : null));
  const rows = Array.from({ length: met.length / width }, (_, i) => met.slice(i * width, (i + 1) * width));
  const columns = Array.from({ length: width }, (_, j) => met.filter((_, i) => i % width === j));
  return (point) => {
    const [i, j] = [Math.floor(point / width), point % width];
    const [row, column] = [at(rows, i), at(columns, j)];
    return {
      moreP: row.slice(j + 1),
      lessP: row.slice(0, j).reverse(),
      moreD: column.slice(i + 1),
      lessD: column.slice(0, i).reverse(),
    };
  };
}

type Change = "better" | "worse" | null;

/** Changes within this share of the value are none: the way is followed further. Ours, no source. */
const FLAT = 0.02;

/**
 * What a measure beyond its limit argues for: loose where more P makes it better and less P does not, ringing where it is the
 * other way about. At an edge of the grid the other side decides. Where P does not decide, ringing if more D makes it better;
 * else what such a measure mostly means.
 */
export function arguesFor(measure: Measure, here: WorstPoint, around: Surroundings): NonNullable<Measure["argues"]> {
  if (measure.argues === null) throw new RangeError(`${measure.id} is never judged`);
  if (measure.always) return measure.argues;
  const [up, down] = bothWays(measure, here, around.moreP, around.lessP);
  if ((up === "better") !== (down === "better")) return up === "better" ? "loose" : "ringing";
  const [moreD] = bothWays(measure, here, around.moreD, around.lessD);
  return up !== "better" && moreD === "better" ? "ringing" : measure.argues;
}

/** Where one direction shows no change, it counts as the opposite of the other. */
function bothWays(measure: Measure, here: WorstPoint, up: Met, down: Met): readonly [Change, Change] {
  const [above, below] = [changeAlong(measure, here, up), changeAlong(measure, here, down)];
  return [above ?? opposite(below), below ?? opposite(above)];
}

const opposite = (change: Change): Change => (change === null ? null : change === "better" ? "worse" : "better");

/** The first change met that is one; an oscillation that does not die out is worse than any value. */
function changeAlong(measure: Measure, here: WorstPoint, met: Met): Change {
  const now = badness(measure, here);
  if (now === null) return null;
  for (const point of met) {
    if (point === null) return "worse";
    const then = badness(measure, point);
    if (then === null || isFlat(now, then)) continue;
    return then < now ? "better" : "worse";
  }
  return null;
}

const isFlat = (now: number, then: number): boolean =>
  then === now || (Number.isFinite(now) && Math.abs(then - now) <= FLAT * Math.abs(now));

/** Larger is worse; a trial that failed at the measure is worse than any value, null: nothing to compare. */
function badness({ id, better }: Measure, worst: WorstPoint): number | null {
  const { value, absent } = worst[id];
  if (FAILING.includes(absent)) return Number.POSITIVE_INFINITY;
  return value === null ? null : better === "high" ? -value : value;
}
