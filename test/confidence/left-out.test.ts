// What is left out of the draws does not change the answer: every point under every script, in every draw, and only what
// can decide, give the same counts.
import { expect, it } from "vitest";
import { candidatesOf } from "../../src/confidence/candidates.js";
import { drawTheory } from "../../src/confidence/draw-theory.js";
import { loopPlaces } from "../../src/confidence/places.js";
import { safeDraws } from "../../src/confidence/safe-draws.js";
import { askOf } from "../../src/flow/ask.js";
import { runDraws } from "../../src/flow/draws.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import type { TrialTable } from "../../src/map/trials.js";
import { taskRunner } from "../../src/run/task-runner.js";

it("counts the same safe draws as with everything simulated", async () => {
  const model = readAirframe("models/sandpiper-r1.yaml");
  const draws = runDraws(planFor(model, readSweep("test/fixtures/draws.yaml")), model.document);
  if (draws === null) throw new Error("the fixture asks for no draws");
  const { plan } = draws;
  const count = draws.uncertainty.draws;
  const run = taskRunner(plan);
  const ask = askOf(async (tasks) => tasks.map(run));
  const lines = plan.sweep.grid.roll;
  const gains = lines.d.flatMap((d) => lines.p.map((p) => ({ p, d })));
  const variants = plan.variants.filter(({ axis }) => axis === "roll");
  const grid = new Map<number, TrialTable>();
  for (const { index } of variants) grid.set(index, await ask(gains.map((gain) => ({ variant: index, ...gain }))));
  const theory = (plan.draws ?? []).slice(0, count).map((one) => drawTheory(one, loopPlaces(plan)).roll);
  const { limits } = plan.sweep;
  const input = { lines, grid, limits, theory, ask, yieldIfDue: async () => {} };
  const few = candidatesOf(lines, grid, limits);
  const all = gains.map((_, point) => point);
  const each = variants.map(({ index }) => index);
  const everything = { points: all, deciding: new Map(all.map((point) => [point, each])) };
  const [quick, complete] = [
    await safeDraws({ ...input, candidates: few }),
    await safeDraws({ ...input, candidates: everything }),
  ];
  expect([...quick.counts]).toEqual([...complete.counts]);
  expect(quick.trials).toBeLessThan(0.8 * complete.trials);
  // some points are safe in all, some in a part, some in none
  expect(Math.max(...quick.counts)).toBeGreaterThanOrEqual(count - 1);
  expect(new Set(quick.counts).size).toBeGreaterThan(4);
  expect(Math.min(...quick.counts)).toBe(0);
});
