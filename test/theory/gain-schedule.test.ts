// Gains scheduled over throttle: the edge of stability moves by exactly the factor, in theory and in trials, bit for bit.
import { describe, expect, test } from "vitest";
import type { Airframe, AxisGains, ScheduledGains } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { gainFactorsAt } from "../../src/airframe/gain-schedule.js";
import type { Trim } from "../../src/airframe/powered.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { hoverTrim, trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { modelFormat } from "../../src/map/simulable.js";
import { softHold } from "../../src/plan/soft-hold.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { attitudeResponse } from "../../src/theory/bandwidth.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { effectsOf } from "../../src/theory/sensitivity.js";
import { FULL, nudge, planOf, stretchedX } from "../fixtures/airframe.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const withRows = (gainSchedule: readonly ScheduledGains[], airframe: Airframe = stretchedX): Airframe => ({
  ...airframe,
  controller: { ...airframe.controller, gainSchedule },
});
const ROWS = [
  { throttle: 0.3, p: 1, i: 1, d: 1 },
  { throttle: 0.7, p: 0.6, i: 0.8, d: 0.4 },
];

test("factors are straight lines between rows and flat outside; a single row is flat", () => {
  const at = (throttle: number) => gainFactorsAt(withRows(ROWS), throttle);
  expect([at(0), at(0.3), at(0.7), at(1)]).toEqual(
    [0, 0, 1, 1].map((k) => ({ ...ROWS[k], throttle: undefined })).map(({ p, i, d }) => ({ p, i, d })),
  );
  expect(at(0.4).p).toBeCloseTo(0.9, 14);
  expect(at(0.5).d).toBeCloseTo(0.7, 14);
  expect(gainFactorsAt(withRows([{ throttle: 0.5, p: 2, i: 3, d: 4 }]), 0.9)).toEqual({ p: 2, i: 3, d: 4 });
  expect(gainFactorsAt(stretchedX, 0.5)).toEqual({ p: 1, i: 1, d: 1 });
});

const RANGE = { from: 3 * P_UNIT, to: 200 * P_UNIT };
const holding = {
  roll: { p: 12 * P_UNIT, i: 40 * I_UNIT, d: D_UNIT },
  pitch: { p: 14 * P_UNIT, i: 40 * I_UNIT, d: D_UNIT },
  yaw: { p: 40 * P_UNIT, i: 30 * I_UNIT, d: 0 },
};
/** What must be set for the schedule to make of it what was wanted. */
const undone = (gains: AxisGains, { p, i, d }: AxisGains): AxisGains => ({
  p: gains.p / p,
  i: gains.i / i,
  d: gains.d / d,
});

describe.each([0.3, 0.45, 0.7, 0.9])("at %f throttle", (throttle) => {
  const airframe = withRows(ROWS);
  const factors = gainFactorsAt(airframe, throttle);
  const craft = craftUnder(airframe, FULL);
  const trim = trimAt(craft, throttle);
  const scheduled = {
    roll: undone(holding.roll, factors),
    pitch: undone(holding.pitch, factors),
    yaw: undone(holding.yaw, factors),
  };
  const plain = axisPieces(craftUnder(stretchedX, FULL), trim, "roll", holding);
  const pieces = axisPieces(craft, trim, "roll", scheduled);

  test.each([0, 0.5, 1])("D %f: the edge moves by exactly the factor", (units) => {
    const gains = undone({ p: 0, i: 40 * I_UNIT, d: units * D_UNIT }, factors);
    const range = { from: RANGE.from / factors.p, to: RANGE.to / factors.p };
    const found = ultimateGain(pieces, gains.d, gains.i, range);
    const wanted = ultimateGain(plain, units * D_UNIT, 40 * I_UNIT, RANGE);
    expect(found.length).toBe(wanted.length);
    expect(found.length).toBeGreaterThan(0);
    for (const [k, { p, frequency }] of found.entries()) {
      expect((p * factors.p) / (wanted[k]?.p ?? 0)).toBeCloseTo(1, 9);
      expect(frequency / (wanted[k]?.frequency ?? 0)).toBeCloseTo(1, 9);
    }
  });

  test("the attitude follows a command as under the gains that the schedule makes", () => {
    const wanted = attitudeResponse(plain, holding.roll);
    const found = attitudeResponse(pieces, scheduled.roll);
    const off = wanted.re.map(
      (re, k) => Math.hypot(found.re[k] - re, found.im[k] - wanted.im[k]) / Math.hypot(re, wanted.im[k]),
    );
    expect(Math.max(...off)).toBeLessThan(1e-9);
  });
});

test("gains that hold an axis softly are those of the hovering loop", () => {
  const [plain, scheduled] = [stretchedX, withRows([{ throttle: 0, p: 0.5, i: 1, d: 1 }])].map((airframe) => {
    const craft = craftUnder(airframe, FULL);
    return softHold(craft, hoverTrim(craft) as Trim, "roll").p;
  });
  expect(scheduled).toBe(2 * plain);
});

test("a trial with gains twice as high under factors of a half has the bits of one without either, all axes and I included", () => {
  const trace = (airframe: Airframe, times: number) => {
    const { roll, pitch, yaw } = airframe.controller;
    const multiplied = (gains: { p: number | null; i: number; d: number | null }) => ({
      p: (gains.p ?? 20 * P_UNIT) * times,
      i: gains.i * times,
      d: (gains.d ?? D_UNIT) * times,
    });
    const controller = {
      ...airframe.controller,
      roll: multiplied(roll),
      pitch: multiplied(pitch),
      yaw: { ...multiplied(yaw), d: 0 },
    };
    const plan = planOf({ ...airframe, controller }, nudge(200), [0.5], [FULL]);
    const rig = rigOf(plan, plan.variants[0]);
    const scratch = scratchFor(rig);
    simulateTrial(rig, 10 * P_UNIT * times, D_UNIT * times, { from: 0, to: rig.steps }, scratch);
    return scratch.trace;
  };
  const halved = withRows([{ throttle: 0.5, p: 0.5, i: 0.5, d: 0.5 }]);
  expect(trace(halved, 2)).toEqual(trace(stretchedX, 1));
  expect(trace(halved, 1)).not.toEqual(trace(stretchedX, 1));
});

test("what the factors do is among the sensitivities: at D and I 0, as much as they are", async () => {
  const airframe = withRows(ROWS, {
    ...stretchedX,
    controller: { ...stretchedX.controller, roll: { p: null, i: 0, d: null } },
  });
  const craft = craftUnder(airframe, FULL);
  const pieces = axisPieces(craft, trimAt(craft, 0.5), "roll", holding);
  const [{ p }] = ultimateGain(pieces, 0, 0, RANGE);
  const effects = await effectsOf({ airframe, around: FULL, throttle: 0.5, axis: "roll", holding, d: 0, p }, 0.1);
  const found = effects.find(({ key }) => key === "controller.gain_schedule");
  // The held axes are scheduled with it, which the symmetric craft hardly feels.
  expect(found?.more ?? 0).toBeCloseTo(1 / 1.1, 3);
  expect(found?.less ?? 0).toBeCloseTo(1 / 0.9, 3);
});

describe("in a model file", () => {
  const parse = (rows: string) =>
    parseAirframe(
      readYaml("x.yaml", changed(SMALL_MODEL, ["  idle: 6 %\n", `  idle: 6 %\n  gain_schedule: ${rows}\n`])),
    );

  test("factors that are left out are 1, and the map's model says that older programs do not know it", () => {
    const airframe = parse("[{throttle: 40 %, i: 1.2}, {throttle: 80 %, p: 0.6, d: 0.5}]");
    expect(airframe.controller.gainSchedule).toEqual([
      { throttle: 0.4, p: 1, i: 1.2, d: 1 },
      { throttle: 0.8, p: 0.6, i: 1, d: 0.5 },
    ]);
    expect(modelFormat(airframe)).toBe("gainscape.resolved-model/2");
    expect(JSON.stringify(parseAirframe(readYaml("x.yaml", SMALL_MODEL)))).not.toMatch(/schedule/i);
  });

  test.each([
    ["[{throttle: 40 %}, {throttle: 40 %}]", /gain_schedule\[1\]\.throttle: expected to rise/],
    ["[{throttle: 40 %, p: 0}]", /gain_schedule\[0\]\.p/],
    ["[]", /gain_schedule/],
  ])("%s is refused", (rows, message) => {
    expect(() => parse(rows)).toThrow(message);
  });
});
