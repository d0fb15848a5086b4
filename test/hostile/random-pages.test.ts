// Whole pages as a run writes them, by the engine that draws them: of random maps, of two of them compared, and of maps
// that random craft were simulated for.

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compare } from "../../src/flow/compare.js";
import { readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import type { StabilityMap } from "../../src/map/format.js";
import { planSweep } from "../../src/plan/plan.js";
import { renderCard, renderComparison, renderPage } from "../../src/report/index.js";
import type { Sweep } from "../../src/sweep/sweep.js";
import { bothAxes } from "../fixtures/both-axes.js";
import { randomModel } from "../octave/random-craft.js";
import { tinyMap } from "../run/tiny-map.js";
import { triedSlowly } from "./cases.js";
import { randomMap, seeds } from "./random/map.js";
import { expectSound } from "./random/sound.js";

const base = await tinyMap();

async function expectDrawn(map: StabilityMap): Promise<void> {
  expectSound(await renderPage(map));
  expectSound(await renderCard(map));
}

describe("whole pages", () => {
  it("of random maps are drawn", () => triedSlowly(0.001, seeds, (from) => expectDrawn(randomMap(base, from))));

  it("of two maps compared are drawn", () =>
    triedSlowly(0.001, fc.tuple(seeds, fc.nat(9_999_999)), async ([from, values]) => {
      const [before, after] = [randomMap(base, from), randomMap(base, { ...from, values })];
      const comparison = compare({ name: "a", map: before }, { name: "b", map: after }, { command: "c" });
      expectSound(await renderComparison(comparison));
    }));
});

const quick = readSweep("test/fixtures/quick.yaml").value;
const provenance = { productVersion: "0", command: "gainscape sweep x", model: "m.yaml", sweep: "s.yaml" };

/** From a soft tune to one beyond what the craft bears. */
function sweepFor({ p, d }: { readonly p: number; readonly d: number }): Sweep {
  return {
    ...quick,
    grid: bothAxes({ p: [0.25, 0.7, 1.4, 2].map((by) => by * p), d: [0, 0.8, 2].map((by) => by * (d + 1e-5)) }),
  };
}

describe("maps of random craft", () => {
  it("are drawn", async () => {
    let simulated = 0;
    await triedSlowly(0.002, fc.nat(99_999), async (seed) => {
      const { airframe, gains } = randomModel(seed);
      const plan = planSweep(airframe, sweepFor(gains.roll));
      if (!("variants" in plan)) return; // a craft this sweep asks too much of
      simulated++;
      await expectDrawn((await simulate(plan, { workers: 0, provenance })).map);
    });
    expect(simulated).toBeGreaterThan(0);
  });
});
