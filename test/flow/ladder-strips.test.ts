// The climb as a pilot sets the craft: with the gains that strips put in place of the model's own.
import { beforeAll, describe, expect, it } from "vitest";
import { I_UNIT, P_UNIT } from "../../src/base/units.js";
import { withLadder } from "../../src/flow/ladder.js";
import type { StabilityMap } from "../../src/map/format.js";
import type { Strips } from "../../src/map/strip-format.js";
import type { Plan } from "../../src/plan/plan.js";
import { stripsMap } from "../fixtures/strips-map.js";

let plan: Plan;
let map: StabilityMap;
let strips: Strips;
beforeAll(async () => {
  ({ plan, map } = await stripsMap());
  strips = map.strips as Strips;
}, 60_000);

const ladderOf = (of: Plan, change: Strips | undefined) => {
  const { strips: _, ladder: __, ...bare } = map;
  return withLadder(of, change === undefined ? bare : { ...bare, strips: change }).ladder;
};

/** The plan of a model whose own gains are these. */
const planWith = (gains: Partial<Plan["airframe"]["controller"]>): Plan => ({
  ...plan,
  airframe: { ...plan.airframe, controller: { ...plan.airframe.controller, ...gains } },
});

describe("a gain that a strip replaced", () => {
  it("is that of every trial of the climb: yaw's P", () => {
    const choice = strips.yaw?.choice as number;
    expect(choice).not.toBe(strips.yaw?.declared);
    const { yaw } = plan.airframe.controller;
    const asWritten = ladderOf(planWith({ yaw: { ...yaw, p: choice * P_UNIT } }), undefined);
    expect(ladderOf(plan, { yaw: strips.yaw as NonNullable<Strips["yaw"]> })).toEqual(asWritten);
    expect(ladderOf(plan, undefined)).not.toEqual(asWritten);
  });

  it("is that of every trial of the climb: I of an axis", () => {
    const roll = strips.i?.roll as NonNullable<Strips["i"]>["roll"];
    if (roll === undefined) throw new Error("no strip over roll's I");
    const choice = 0.5 * roll.declared;
    const { roll: own } = plan.airframe.controller;
    const asWritten = ladderOf(planWith({ roll: { ...own, i: choice * I_UNIT } }), undefined);
    expect(ladderOf(plan, { i: { roll: { ...roll, choice } } })).toEqual(asWritten);
    expect(ladderOf(plan, undefined)).not.toEqual(asWritten);
  });

  it("is the model's own where nothing passes, or the model's own does", () => {
    const yaw = strips.yaw as NonNullable<Strips["yaw"]>;
    const own = ladderOf(plan, undefined);
    expect(ladderOf(plan, { yaw: { ...yaw, choice: null, range: null } })).toEqual(own);
    expect(ladderOf(plan, { yaw: { ...yaw, choice: yaw.declared } })).toEqual(own);
  });

  it("is that of the ladder which a sweep writes", () => {
    expect(map.ladder).toEqual(ladderOf(plan, strips));
  });
});
