// Stated shares against independent truths: craft drawn from the spreads that no map has seen, every manoeuvre simulated.
// The controller never knows the truth: gains, mixer and filters are those of the model as it is written.
import { expect, it } from "vitest";
import { drawsOf } from "../../src/airframe/draws.js";
import { at } from "../../src/base/at.js";
import { failuresAt } from "../../src/confidence/at-start.js";
import { drawTheory } from "../../src/confidence/draw-theory.js";
import { loopPlaces } from "../../src/confidence/places.js";
import { askOf } from "../../src/flow/ask.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { NOBODY } from "../../src/map/decider.js";
import { sustains } from "../../src/map/trials.js";
import { isClean } from "../../src/map/verdict.js";
import { worstPoint } from "../../src/map/worst.js";
import { drawnPlanOf } from "../../src/plan/draws.js";
import type { Plan } from "../../src/plan/plan.js";
import { taskRunner } from "../../src/run/task-runner.js";

const STATED = 64;
/** All by night, a score in CI. */
const TRUTHS = Number(process.env.GAINSCAPE_TRUTHS ?? 40);

it("shares of draws are what independent craft show", async () => {
  const model = readAirframe("models/sandpiper-r1.yaml");
  const plan = planFor(model, readSweep("test/fixtures/draws.yaml"));
  const plansOf = (purpose: string, count: number): Plan[] =>
    drawsOf(model.document, { count, seed: 11, purpose, loopGain: 0.1 }).draws.flatMap(
      ({ airframe }) => drawnPlanOf(plan, airframe) ?? [],
    );
  const draws = [...plansOf("start", STATED), ...plansOf("truth", TRUTHS)];
  expect(draws).toHaveLength(STATED + TRUTHS);
  const run = taskRunner({ ...plan, draws });
  const ask = askOf(async (tasks) => tasks.map(run));
  const { limits } = plan.sweep;
  const variants = plan.variants.filter(({ axis }) => axis === "roll");
  const theory = draws.map((one) => drawTheory(one, loopPlaces(plan)).roll);
  const { p, d } = plan.sweep.grid.roll;
  const shares: number[] = [];
  for (const [column, row] of [
    [1, 2],
    [5, 3],
    [6, 4],
    [3, 1],
  ] as const) {
    const tune = { p: at(p, column), d: at(d, row) };
    const stated = await failuresAt(tune, { variants, limits, ask, theory: theory.slice(0, STATED), first: 0 });
    const table = await ask(
      theory
        .slice(STATED)
        .flatMap((_, k) => variants.map(({ index }) => ({ variant: index, ...tune, draw: STATED + k }))),
    );
    const observed = theory.slice(STATED).filter(({ haveMargins }, k) => {
      const rows = variants.map(({ index }, place) => ({ variant: index, table, row: k * variants.length + place }));
      if (rows.some(({ row }) => sustains(table, row))) return false;
      return isClean(worstPoint(rows), NOBODY, limits) && haveMargins([[tune.p, tune.d]])[0] === 1;
    }).length;
    const safe = stated.filter((failure) => failure === null).length;
    const both = (safe + observed) / (STATED + TRUTHS);
    const scatter = Math.sqrt(Math.max(both * (1 - both), 1 / STATED) * (1 / STATED + 1 / TRUTHS));
    // 99 of 100 such differences lie within 2.58 standard deviations.
    expect(Math.abs(safe / STATED - observed / TRUTHS)).toBeLessThan(2.58 * scatter);
    shares.push(safe / STATED);
  }
  // Tunes of every kind: safe in nearly all, in some, in few.
  expect(Math.max(...shares)).toBeGreaterThan(0.9);
  expect(Math.min(...shares)).toBeLessThan(0.6);
});
