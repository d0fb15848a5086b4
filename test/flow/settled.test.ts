// Trials that are left out where a nudge settles a point: every other number is the one of a run that simulates everything, bit
// for bit.
import { describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { ABSENCES, MEASURE_IDS } from "../../src/base/measures.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { levelEnds, levelShifts } from "../../src/compare/levels.js";
import { verdictDrift } from "../../src/compare/points.js";
import { mapDifferences } from "../../src/compare/question.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { mapOf } from "../../src/flow/read-map.js";
import { simulate } from "../../src/flow/simulate.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { tableFaults } from "../../src/map/table-faults.js";
import { MANOEUVRES, worstEnds } from "../../src/map/worst-ends.js";
import { pointReport, shownIds } from "../../src/page/map/point-report.js";
import type { View } from "../../src/page/map/view.js";
import { pageMapOf } from "../../src/page/page-map.js";
import { pageData } from "../../src/page-data/data.js";
import type { Plan } from "../../src/plan/plan.js";
import { provenance as provenanceOf } from "../../src/report/page/provenance.js";
import type { RequestedSweep } from "../../src/sweep/sweep.js";
import { bothAxes } from "../fixtures/both-axes.js";
import { lineOf } from "../fixtures/line-of.js";

const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const LEFT_OUT = (ABSENCES as readonly string[]).indexOf("sustained under a nudge, not simulated");

interface Craft {
  readonly model: string;
  readonly sweep: string;
  /** P and D in display units, from, to and how many. */
  readonly p: readonly [number, number, number];
  readonly d: readonly [number, number, number];
  readonly rest?: Partial<RequestedSweep>;
}

const tuneAt = (p: number, d: number) => ({ p: p * P_UNIT, d: d * D_UNIT });

const CRAFT: Readonly<Record<string, Craft>> = {
  "a quadrotor, with a pinned tune in settled ground": {
    model: "models/sandpiper-r1.yaml",
    sweep: "test/fixtures/quick.yaml",
    p: [4, 110, 10],
    d: [0, 8, 7],
    rest: { pinned: { roll: tuneAt(60, 3), pitch: tuneAt(14, 1.1) } },
  },
  "another one, under five scripts": {
    model: "models/dunlin-r1.yaml",
    sweep: "test/fixtures/causes.yaml",
    p: [2, 90, 10],
    d: [0, 6, 8],
  },
  "one that is safe nowhere on the grid": {
    model: "models/sandpiper-r1.yaml",
    sweep: "test/fixtures/quick.yaml",
    p: [30, 110, 8],
    d: [2, 8, 6],
  },
};

async function simulatedBothWays({ model: file, sweep: path, p, d, rest = {} }: Craft) {
  const model = readAirframe(file);
  const { value, document } = readSweep(path);
  const { uncertainty: _, ...exact } = value;
  const asked = { ...exact, grid: bothAxes({ p: lineOf(p, P_UNIT), d: lineOf(d, D_UNIT) }), ...rest };
  const mapOf = async (plan: Plan) => (await simulate(plan, { workers: 0, provenance, model: model.document })).map;
  return {
    all: await mapOf(planFor(model, { document, value: { ...asked, everyTrial: true } })),
    needed: await mapOf(planFor(model, { document, value: asked })),
  };
}

const made = new Map<Craft, ReturnType<typeof simulatedBothWays>>();
/** Made when first asked for. */
function bothWays(craft: Craft): ReturnType<typeof simulatedBothWays> {
  const maps = made.get(craft) ?? simulatedBothWays(craft);
  made.set(craft, maps);
  return maps;
}

/** Per point whether a measure was left out. */
const leftOutAt = ({ verdict, absent }: AxisMap): boolean[][] =>
  verdict.map((row, i) => row.map((_, j) => MEASURE_IDS.some((id) => absent[id][i][j] === LEFT_OUT)));

/** An axis with null in every table of points where `at` holds; without what settled ground has of its own. */
function apartFrom(at: readonly (readonly boolean[])[], axis: AxisMap) {
  const blank = <T>(table: readonly (readonly T[])[]) =>
    table.map((row, i) => row.map((one, j) => (at[i][j] ? null : one)));
  const { leftOut: _, divergences: __, measures, absent, reasons, decidedBy, boundary, ...others } = axis;
  const { byVariant: ___, overshoot: ____, settling: _____, ...lines } = boundary;
  return {
    ...others,
    boundary: lines,
    reasons: blank(reasons),
    decidedBy: blank(decidedBy),
    measures: MEASURE_IDS.map((id) => blank(measures[id])),
    absent: MEASURE_IDS.map((id) => blank(absent[id])),
  };
}

/** Whether a P lies next to a point where trials were left out. */
function isNextTo(at: readonly boolean[], { p }: AxisMap["grid"], gain: number): boolean {
  const after = p.findIndex((line) => line >= gain);
  return at[after] || at[after - 1];
}

/** Lines of a limit, without crossings next to where trials were left out. */
const crossingsApartFrom = (at: readonly (readonly boolean[])[], { grid, boundary }: AxisMap) =>
  (["overshoot", "settling"] as const).map((id) =>
    boundary[id].map(({ d, p }, i) => ({ d, p: p.filter((gain) => !isNextTo(at[i], grid, gain)) })),
  );

/** Ends by manoeuvres alone, without those next to where trials were left out. */
const manoeuvreEnds = (at: readonly (readonly boolean[])[], axis: AxisMap) =>
  worstEnds(axis, MANOEUVRES)
    .filter(({ d, p }) => !isNextTo(at[axis.grid.d.indexOf(d)], axis.grid, p))
    .map(({ d, p }) => ({ d, p }));

const AXES = ["roll", "pitch"] as const;
const restOf = ({ axes: _, provenance: __, plan: ___, sweep: ____, ...rest }: StabilityMap) => rest;

describe.each(Object.entries(CRAFT))("%s", (_, craft) => {
  it("leaves trials out", async () => {
    const { all, needed } = await bothWays(craft);
    expect(all.axes.roll.leftOut).toBe(undefined);
    const { points = 0, trials = 0 } = needed.axes.roll.leftOut ?? {};
    expect(points).toBe(leftOutAt(needed.axes.roll).flat().filter(Boolean).length);
    expect(points).toBeGreaterThan(4);
    expect(trials % points).toBe(0);
    expect(needed.provenance.trials).toBeLessThan(all.provenance.trials);
  });

  it("has every other number, verdict, boundary and tune of the whole map", async () => {
    const { all, needed } = await bothWays(craft);
    expect(restOf(needed)).toEqual(restOf(all));
    for (const axis of AXES) {
      const at = leftOutAt(needed.axes[axis]);
      expect(apartFrom(at, needed.axes[axis])).toEqual(apartFrom(at, all.axes[axis]));
      expect(needed.axes[axis].verdict).toEqual(all.axes[axis].verdict);
      expect(crossingsApartFrom(at, needed.axes[axis])).toEqual(crossingsApartFrom(at, all.axes[axis]));
      expect(levelEnds(axis, needed)).toEqual(levelEnds(axis, all));
      expect(manoeuvreEnds(at, needed.axes[axis])).toEqual(manoeuvreEnds(at, all.axes[axis]));
    }
  });

  it("comes back from its file, and the page says why a settled point shows so little", async () => {
    const { all, needed } = await bothWays(craft);
    const map = mapOf("map.json", canonicalJson(needed));
    expect(map?.axes.roll.leftOut).toEqual(needed.axes.roll.leftOut);
    const pageMap = pageMapOf(JSON.parse(JSON.stringify(pageData(map as StabilityMap))));
    const axis = pageMap.axes.roll;
    const [i, j] = [...axis.grid.d.keys()]
      .flatMap((row) => [...axis.grid.p.keys()].map((column) => [row, column] as const))
      .find(([row, column]) => axis.absent.growth[row][column] === LEFT_OUT) ?? [0, 0];
    const report = pointReport(pageMap, "roll", { i, j }, { axes: pageMap.axes, level: null } as unknown as View);
    expect(report.decided).toMatch(
      /^Decided by: .*\. Nothing else could change that, so the other scripts were not simulated here\.$/,
    );
    expect(shownIds(report).every((id) => report.absent(id) !== LEFT_OUT)).toBe(true);
    const { points = 0, trials = 0 } = needed.axes.roll.leftOut ?? {};
    const pitch = needed.axes.pitch.leftOut ?? { points: 0, trials: 0 };
    expect(String(provenanceOf(map as StabilityMap))).toContain(
      `; ${trials + pitch.trials} more left out at ${points + pitch.points} points where a nudge does not die out`,
    );
    expect(String(provenanceOf(all))).not.toContain("left out");
  });

  it("is refused where it counts other points than its tables leave out", async () => {
    const { needed } = await bothWays(craft);
    const { roll } = needed.axes;
    const leftOut = { points: (roll.leftOut?.points ?? 0) + 1, trials: 1 };
    const edited = { ...needed, axes: { ...needed.axes, roll: { ...roll, leftOut } } };
    expect(tableFaults(needed, "roll")).toEqual([]);
    expect(tableFaults(edited, "roll")).toEqual([
      [["axes", "roll", "leftOut", "points"], `${leftOut.points} here, ${leftOut.points - 1} in absent`],
    ]);
  });

  it("compares with the whole map as the same: no shift at any level, no point worse or better", async () => {
    const { all, needed } = await bothWays(craft);
    expect(mapDifferences(all, needed)).toEqual([]);
    for (const axis of AXES) {
      expect(verdictDrift(axis, all, needed)).toMatchObject({ worsened: 0, improved: 0, causes: [], changes: [] });
      for (const { perD } of levelShifts(axis, all, needed))
        for (const { percent } of perD) expect(percent ?? 0).toBe(0);
    }
  });

  it("says of a settled point that it is sustained under a nudge, and shows nothing it does not know", async () => {
    const { all, needed } = await bothWays(craft);
    for (const axis of AXES) {
      const [own, whole] = [needed.axes[axis], all.axes[axis]];
      for (const [i, row] of leftOutAt(own).entries())
        for (const [j, leftOut] of row.entries()) {
          if (!leftOut) continue;
          expect(own.verdict[i][j]).toBe("sustained");
          expect(own.reasons[i][j]).toBe(1);
          expect(needed.variants[own.decidedBy[i][j]].kind).toBe("nudge");
          for (const id of MEASURE_IDS) {
            if (own.absent[id][i][j] === LEFT_OUT) expect(own.measures[id][i][j]).toBe(null);
            else expect(own.measures[id][i][j]).toBe(whole.measures[id][i][j]);
          }
        }
    }
  });
});
