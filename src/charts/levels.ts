// The levels at which a measure's map changes tint: round numbers over the simulated range, the limit among them.
import { at } from "../base/at.js";
import type { MeasureId } from "../base/measures.js";
import type { AxisMap } from "../map/format.js";
import { FAILING } from "../map/worst.js";

/** Values of one measure over the grid, [d][p]; null: absent, infinite: the trial failed at it. */
export type Field = readonly (readonly (number | null)[])[];

/** A measure of one axis; a trial that failed at it is worse than any value. */
export function fieldOf({ measures, absent }: Pick<AxisMap, "measures" | "absent">, id: MeasureId): Field {
  return measures[id].map((row, i) =>
    row.map((value, j) => (FAILING.includes(absent[id][i]?.[j] ?? 0) ? Number.POSITIVE_INFINITY : value)),
  );
}

const MOST_LEVELS = 6;
const ROUND = Object.freeze([1, 1.5, 2, 3, 4, 5, 7]);
const [LOW, HIGH] = [0.03, 0.97]; // quantiles between which the levels lie

/** Values of a measure on the given axes where the oscillation dies out. */
export function shownValues(axes: readonly Pick<AxisMap, "measures" | "verdict">[], id: MeasureId): number[] {
  return axes.flatMap(({ measures, verdict }) =>
    measures[id].flatMap((row, i) =>
      row.flatMap((value, j) => (value === null || verdict[i]?.[j] === "sustained" ? [] : [value])),
    ),
  );
}

/** Rising levels; none where nothing is shown. */
export function levelsOf(values: readonly number[], limit: number | null): number[] {
  const sorted = values.filter((value) => value > 0).sort((a, b) => a - b);
  if (sorted.length === 0) return [];
  const quantile = (share: number) => at(sorted, Math.round(share * (sorted.length - 1)));
  const [low, high] = [quantile(LOW), quantile(HIGH)];
  const inside = limit !== null && limit > low && limit < high;
  const round = roundBetween(low, high).filter((level) => !inside || Math.abs(level / limit - 1) > 0.2);
  const room = MOST_LEVELS - (inside ? 1 : 0);
  return [...spread(round, room), ...(inside ? [limit] : [])].sort((a, b) => a - b);
}

function roundBetween(low: number, high: number): number[] {
  const found: number[] = [];
  for (let power = -4; power <= 6; power++)
    for (const digit of ROUND) {
      const level = Number(`${digit}e${power}`);
      if (level > low && level < high) found.push(level);
    }
  return found;
}

/** At most `count` of the levels, evenly chosen. */
function spread(levels: readonly number[], count: number): number[] {
  if (levels.length <= count) return [...levels];
  const step = (levels.length - 1) / (count - 1);
  return Array.from({ length: count }, (_, k) => at(levels, Math.round(k * step)));
}
