// A large, slow craft from its files to its map: trials as long as its swings, held to theory; and what blips alone miss.
import { beforeAll, describe, expect, it } from "vitest";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import type { StabilityMap } from "../../src/map/format.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { pageData } from "../../src/page-data/data.js";

const sweep = readSweep("test/fixtures/slow.yaml");
const model = readAirframe(modelOf(sweep));
const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const mapOf = async (value: typeof sweep.value): Promise<StabilityMap> =>
  (await simulate(planFor(model, { ...sweep, value }), { workers: 0, provenance })).map;

let map: StabilityMap;
beforeAll(async () => {
  map = await mapOf(sweep.value);
});

describe("a large craft at 2 Hz", () => {
  it("has its boundary where theory has it", () => {
    for (const { boundary } of [map.axes.roll, map.axes.pitch]) {
      expect(boundary.theory?.agreement?.ends).toBe(3);
      expect(boundary.theory?.agreement?.disagreements).toEqual([]);
    }
  });

  it("says that its tails were made longer, and by how much", () => {
    for (const axis of ["roll", "pitch"])
      expect(map.assumptions).toContain(
        `Slow craft: at the edge of stability ${axis} swings at 1.7 Hz, so tails were made longer, up to 2.4 s.`,
      );
  });

  it("is simulated in its page as in its map", () => {
    const { simulation } = pageData(map);
    const { plan } = simulatorOf(simulation as NonNullable<typeof simulation>);
    expect(plan.variants.map(({ script }) => script)).toEqual(
      planFor(model, sweep).variants.map(({ script }) => script),
    );
  });

  it("is judged by theory where a blip alone shows its oscillation far too late", async () => {
    const [, blip] = sweep.value.scripts;
    const alone = await mapOf({ ...sweep.value, scripts: [blip as NonNullable<typeof blip>] });
    expect(alone.assumptions.filter((line) => line.startsWith("No small-signal script"))).toHaveLength(2);
    const [low] = alone.axes.roll.boundary.sustained;
    const theory = alone.axes.roll.boundary.theory?.loops[0]?.perD[0]?.[0]?.[1] as number;
    expect(low).toMatchObject({ script: "theory", p: theory });
    const late = alone.axes.roll.boundary.byVariant[0]?.perD[0]?.stable[0]?.to as number;
    expect(late).toBeGreaterThan(1.05 * theory);
    const between = alone.axes.roll.grid.p.findIndex((p) => p > theory && p < late);
    expect(alone.axes.roll.verdict[0]?.[between]).toBe("sustained");
    expect(alone.axes.roll.decidedBy[0]?.[between]).toBe(-2);
  });
});
