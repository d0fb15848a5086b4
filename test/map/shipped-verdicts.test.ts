// The trade's fact: soft and slow is low P, sharp and quick is high P, and D calms what rings (common practice, no source).
// Held on the shipped craft under the shipped sweeps, some lines of their grids: each verdict points the right way.
import { describe, expect, it } from "vitest";
import { MEASURES, type MeasureId, type Verdict } from "../../src/base/measures.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { sustains } from "../../src/map/trials.js";
import { judge, slack } from "../../src/map/verdict.js";
import { surroundingsOn } from "../../src/map/way-out.js";
import { type WorstPoint, worstPoint } from "../../src/map/worst.js";
import { taskRunner } from "../../src/run/task-runner.js";

const AXES = ["roll", "pitch"] as const;

interface Place {
  readonly worst: WorstPoint;
  readonly verdict: Verdict;
  /** Measures beyond their limits, other than heat's: how far, larger is worse. */
  readonly over: ReadonlyMap<MeasureId, number>;
}

/** One axis of a coarser map, [d][p]. */
function coarse(sweepFile: string, model: string, axis: (typeof AXES)[number], every: number): Place[][] {
  const plan = planFor(readAirframe(model), readSweep(sweepFile));
  const { limits, grid } = plan.sweep;
  const [p, d] = [grid[axis].p, grid[axis].d].map((line) => line.filter((_, k) => k % every === 0));
  const run = taskRunner(plan);
  const gains = {
    p: Float64Array.from(d.flatMap(() => p)),
    d: Float64Array.from(d.flatMap((gain) => p.map(() => gain))),
  };
  const tables = plan.variants
    .filter((variant) => variant.axis === axis)
    .map(({ index }) => ({ variant: index, table: run({ variant: index, ...gains }) }));
  const points = [...gains.p.keys()];
  const worst = points.map((row) => worstPoint(tables.map(({ variant, table }) => ({ variant, table, row }))));
  const sustainedBy = points.map((row) => tables.find(({ table }) => sustains(table, row))?.variant ?? -1);
  const around = surroundingsOn(p.length, worst, sustainedBy);
  const places = points.map((row): Place => {
    const { verdict } = judge(worst[row], sustainedBy[row], limits, around(row));
    const beyond = MEASURES.filter((measure) => measure.argues !== null && measure.argues !== "hot").filter(
      (measure) => (slack(measure, worst[row][measure.id], limits[measure.id]) ?? 0) < 0,
    );
    return { worst: worst[row], verdict, over: new Map(beyond.map(({ id }) => [id, badness(worst[row], id)])) };
  });
  return d.map((_, i) => places.slice(i * p.length, (i + 1) * p.length));
}

/** Every judged measure is better the lower; a trial that failed at it is beyond any value. */
const badness = (worst: WorstPoint, id: MeasureId): number => worst[id].value ?? Number.POSITIVE_INFINITY;

type Step = readonly [di: number, dj: number];
const [LESS_P, MORE_P, MORE_D]: readonly Step[] = [
  [0, -1],
  [0, 1],
  [1, 0],
];

/** Whether some measure beyond its limit gets better that way, where the first of them changes; null: the grid ends first. */
function helps(places: readonly Place[][], i: number, j: number, [di, dj]: Step): boolean | null {
  const { over } = places[i][j];
  for (let [a, b] = [i + di, j + dj]; places[a]?.[b] !== undefined; [a, b] = [a + di, b + dj]) {
    const { worst, verdict } = places[a][b];
    if (verdict === "sustained") return false;
    const changes = [...over].map(([id, now]) => badness(worst, id) - now).filter((change) => change !== 0);
    if (changes.length > 0) return changes.some((change) => change < 0);
  }
  return null;
}

describe.each([
  ["first-tune", "sandpiper-r1", 4],
  ["first-tune", "curlew-r1", 4],
  ["first-tune", "dunlin-r1", 4],
  ["propeller-change", "sandpiper-r2", 3],
  ["battery-change", "sandpiper-r3", 3],
  ["battery-change", "sandpiper-r4", 3],
  ["slow-loop", "sandpiper-r5", 3],
])("%s of %s", (sweep, model, every) => {
  it.each(AXES)("%s: less P or more D helps what rings, more P what is loose", (axis) => {
    const places = coarse(`sweeps/${sweep}.yaml`, `models/${model}.yaml`, axis, every);
    const wrong: string[] = [];
    const counts = { ringing: 0, loose: 0 };
    for (const [i, row] of places.entries())
      for (const [j, { verdict }] of row.entries()) {
        if (verdict !== "ringing" && verdict !== "loose") continue;
        const ways = verdict === "loose" ? [MORE_P] : [LESS_P, MORE_D];
        const outcomes = ways.map((way) => helps(places, i, j, way));
        counts[verdict]++;
        if (outcomes.every((outcome) => outcome === false)) wrong.push(`${verdict} at D line ${i}, P line ${j}`);
      }
    expect(wrong).toEqual([]);
    expect(Math.min(counts.ringing, counts.loose)).toBeGreaterThan(1);
  });
});
