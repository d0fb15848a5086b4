// The same plan gives the same map, bit for bit, whatever carries it out. Runs what is shipped: workers load from dist.
import { beforeAll, describe, expect, it } from "vitest";
import { digestOf } from "../../src/base/canonical.js";
import type { simulate as Simulate } from "../../src/flow/simulate.js";
import { tinyPlan } from "./tiny-plan.js";

const WORKERS = [0, 1, 2, 3]; // 0: everything in the calling thread
const CHUNKS = [1, 7, 64]; // points a task

const provenance = { productVersion: "0", command: "", model: "", sweep: "" };

let simulate: typeof Simulate;
beforeAll(async () => {
  ({ simulate } = (await import(new URL("../../dist/flow/simulate.js", import.meta.url).href)) as {
    simulate: typeof Simulate;
  });
});

const digestWith = async (workers: number, pointsPerTask: number): Promise<string> =>
  digestOf((await simulate(tinyPlan(), { workers, pointsPerTask, provenance })).map);

describe("one digest of the canonical map", () => {
  let serial: string;
  beforeAll(async () => {
    serial = await digestWith(0, 64);
  });

  it.each(WORKERS.flatMap((workers) => CHUNKS.map((points) => [workers, points] as const)))(
    "with %d workers and %d points a task",
    async (workers, points) => {
      expect(await digestWith(workers, points)).toBe(serial);
    },
  );

  it("for each repetition", async () => {
    expect(await digestWith(0, 64)).toBe(serial);
  });
});

describe("what the digest stands for", () => {
  it("hangs on the seed: other noise, other measures", async () => {
    const measuresOf = async (seed: number) =>
      (await simulate(tinyPlan(seed), { workers: 0, provenance })).map.axes.roll.measures;
    expect((await measuresOf(8)).wobbleAngle).not.toEqual((await measuresOf(7)).wobbleAngle);
  });

  it("holds verdicts of more than one kind and a boundary that was bisected", async () => {
    const { map, figures } = await simulate(tinyPlan(), { workers: 0, provenance });
    expect(figures.trials).toBeGreaterThan(figures.gridTrials);
    for (const axis of [map.axes.roll, map.axes.pitch]) {
      expect(new Set(axis.verdict.flat()).size).toBeGreaterThan(1);
      expect(axis.boundary.sustained.some(({ p }) => p !== null)).toBe(true);
    }
  });
});
