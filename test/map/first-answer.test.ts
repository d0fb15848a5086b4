// Theory's first answer held against the poles of the closed loop, an independent route to where it is stable.
import { describe, expect, it } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { firstAnswerFor } from "../../src/flow/first-answer.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { type FirstStart, firstAnswer } from "../../src/map/first-answer.js";
import type { RequestedSweep } from "../../src/sweep/sweep.js";
import { closedLoopPoles, spectralRadius } from "../theory/closed-loop-poles.js";

const model = readAirframe("models/sandpiper-r1.yaml");
const sweep = readSweep("test/fixtures/quick.yaml");
const { answer, points } = firstAnswerFor(model, sweep);
const { controller } = model.value;

/** Whether the whole craft is stable at a level, with one axis at these gains in display units. */
function stable(axis: "roll" | "pitch", throttle: number, gains: { p: number; d: number; i?: number }): boolean {
  const place = points.places.find((one) => Math.abs(100 * one.throttle - throttle) < 1e-6);
  if (place === undefined) throw new Error(`no level of ${throttle} %`);
  const own = { p: gains.p * P_UNIT, i: gains.i ?? controller[axis].i, d: gains.d * D_UNIT };
  const all = { ...points.hold.holding, yaw: controller.yaw, [axis]: own };
  return spectralRadius(closedLoopPoles(place.craft, place.trim, all)) < 1;
}

const levels = points.places.map(({ throttle }) => 100 * throttle);

describe.each(["roll", "pitch"] as const)("the first answer of %s", (axis) => {
  const start = answer[axis] as FirstStart;
  const { p, d, margins, boundary } = start;
  const [lowest, highest] = [boundary.lowest, boundary.highest].map((end) => end ?? expect.fail("no end"));

  it("gives out first at the lowest end of its boundary, at that level", () => {
    for (const level of levels) expect(stable(axis, level, { p: 0.99 * lowest.p, d })).toBe(true);
    expect(stable(axis, lowest.throttle, { p: 1.01 * lowest.p, d })).toBe(false);
  });

  it("and at every level above the highest", () => {
    expect(stable(axis, highest.throttle, { p: 0.99 * highest.p, d })).toBe(true);
    for (const level of levels) expect(stable(axis, level, { p: 1.01 * highest.p, d })).toBe(false);
  });

  it("has the gain margin it names: P, I and D rise together by that much and no more", () => {
    const i = controller[axis].i;
    const holds = (share: number) => {
      const factor = share * 10 ** ((margins.gainUp ?? 0) / 20);
      return levels.every((level) => stable(axis, level, { p: factor * p, d: factor * d, i: factor * i }));
    };
    expect([holds(0.99), holds(1.01)]).toEqual([true, false]);
  });

  it("is in the controller's own numbers too: 250 to one of ours in P, 2000 in D, as the model's one_unit says", () => {
    expect(start.own?.p).toBeCloseTo(250 * p, 6);
    expect(start.own?.d).toBeCloseTo(2000 * d, 6);
  });
});

describe("what the sweep asks", () => {
  const asked = (change: Partial<RequestedSweep>) => {
    const changed = { ...sweep, value: { ...sweep.value, ...change } };
    return firstAnswerFor(model, changed).answer;
  };

  it("margins beyond those of the start are said to be missing", () => {
    const gainUp = answer.roll?.margins.gainUp ?? 0;
    const phase = sweep.value.margins.phase;
    expect(answer.roll?.enough).toBe(true);
    expect(asked({ margins: { gain: gainUp + 0.1, phase } }).roll?.enough).toBe(false);
    expect(asked({ margins: { gain: gainUp - 0.1, phase } }).roll?.enough).toBe(true);
  });

  it("an axis is judged at the levels it is simulated at, no others", () => {
    const [nudge] = sweep.value.scripts;
    if (nudge === undefined) throw new Error("no script");
    const of = (axis: "roll" | "pitch", throttle: typeof nudge.throttle) => ({
      ...nudge,
      script: { ...nudge.script, axes: [axis] },
      throttle,
    });
    const { roll, pitch } = asked({ scripts: [of("roll", ["hover", 0.6]), of("pitch", ["hover"])] });
    expect(roll?.boundary.lowest?.throttle).toBeCloseTo(60, 9);
    expect(pitch?.boundary.lowest).toEqual(pitch?.boundary.highest);
    expect(pitch?.boundary.lowest?.throttle).toBeLessThan(40);
  });

  it("no level of an axis: no start", () => {
    expect(firstAnswer(model.value, sweep.value, { ...points, places: [] })).toMatchObject({ roll: null, pitch: null });
  });

  it("the plan that goes on from it is the plan made without it", () => {
    expect(planFor(model, sweep, undefined, points).digests).toEqual(planFor(model, sweep).digests);
  });
});
