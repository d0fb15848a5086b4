// Theory of many draws in little memory: what is made anew says the same. No outside source: both are our own.
import { expect, test } from "vitest";
import { at } from "../../src/base/at.js";
import { loopPlaces } from "../../src/confidence/places.js";
import { drawTheories, marginsOfBoth } from "../../src/flow/draw-theories.js";
import { runDraws } from "../../src/flow/draws.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";

const model = readAirframe("models/sandpiper-r1.yaml");
const draws = runDraws(planFor(model, readSweep("test/fixtures/draws.yaml")), model.document);
const plans = draws?.plan.draws?.slice(0, 4) ?? [];
const { p, d } = at(plans, 0).sweep.grid.roll;
const gains = d.flatMap((dGain) => p.map((pGain) => [pGain, dGain] as const));

test("with room for one draw or for all, margins and boundaries are the same in any order", () => {
  const places = loopPlaces(at(plans, 0));
  const [roomy, tight] = [drawTheories(plans, places), drawTheories(plans, places, 1)];
  expect(plans).toHaveLength(4);
  for (const k of [0, 3, 1, 3, 2, 0])
    for (const axis of ["roll", "pitch"] as const) {
      expect(tight[k]?.[axis].haveMargins(gains)).toEqual(roomy[k]?.[axis].haveMargins(gains));
      expect(d.map((one) => tight[k]?.[axis].boundary(one))).toEqual(d.map((one) => roomy[k]?.[axis].boundary(one)));
    }
  const held = roomy.map(({ roll }) => roll.haveMargins(gains).reduce((sum, one) => sum + one, 0));
  expect(new Set(held).size).toBeGreaterThan(1); // they are not all alike
});

test("both axes are answered by one pass, each what it asked for", async () => {
  const passes: unknown[] = [];
  const margins = marginsOfBoth(async (asked) => {
    passes.push(asked);
    return { roll: [new Uint8Array(asked.roll.length)], pitch: [new Uint8Array(asked.pitch.length)] };
  });
  const roll = margins("roll", gains);
  expect(passes).toEqual([]);
  const pitch = margins("pitch", gains.slice(0, 3));
  expect((await roll)[0]).toHaveLength(gains.length);
  expect((await pitch)[0]).toHaveLength(3);
  expect(passes).toHaveLength(1);
});
