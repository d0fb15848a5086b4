// Commands behind a low-pass, and what is fed forward of them: what the kernel takes, what the attitude makes of it, and that no
// edge of stability feels it.
import { describe, expect, test } from "vitest";
import type { Airframe, Controller } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { lowPassStage } from "../../src/airframe/filter.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import * as m from "../../src/kernel/memory.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { modelFormat } from "../../src/map/simulable.js";
import { questionOf } from "../../src/run/question.js";
import type { Script } from "../../src/sweep/sweep.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { attitudeResponse } from "../../src/theory/bandwidth.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { commandPath } from "../../src/theory/controller.js";
import { FULL, nudge, planOf, stretchedX, withSubsteps } from "../fixtures/airframe.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const withCommands = (change: Partial<Controller>, airframe: Airframe = stretchedX): Airframe => ({
  ...airframe,
  controller: { ...airframe.controller, ...change },
});
const AHEAD = {
  roll: { rate: 0.003, slope: 3e-4 },
  pitch: { rate: 0.001, slope: 1e-4 },
  yaw: { rate: 0.01, slope: 2e-3 },
};
const both = withCommands({ commandLowPass: [{ order: 2, cutoff: 30 }], feedForward: AHEAD });

const rate = (radians: number) => ({ kind: "rate" as const, rate: radians });
const commanding = (command: Script["command"], duration = 0.1): Script => ({ ...nudge(0), duration, command });
const rigFor = (airframe: Airframe, script: Script, axis: "roll" | "pitch" = "roll") => {
  const plan = planOf(airframe, script, [0.5], [FULL]);
  const variant = plan.variants.find((one) => one.axis === axis) ?? plan.variants[0];
  return { plan, variant, rig: rigOf(plan, variant) };
};

test("a command behind a low-pass of order 1 rises as a step's closed form, and its slope is fed forward", () => {
  const cutoff = 40;
  const airframe = withCommands({ commandLowPass: [{ order: 1, cutoff }], feedForward: AHEAD });
  const at = 0.02;
  const { rig, variant } = rigFor(
    airframe,
    commanding([
      [0, rate(0)],
      [at, rate(0)],
      [at, rate(2)],
    ]),
  );
  const [b0, , , a1] = lowPassStage({ order: 1, cutoff }, airframe.controller.rate);
  const from = Math.ceil(at * airframe.controller.rate - 1e-9);
  const cell = (k: number, place: number) => rig.drive.values[k * rig.drive.width + place];
  const step = (k: number) => (k < from ? 0 : 2 * (1 - (1 - b0) * (-a1) ** (k - from)));
  for (let k = 0; k < rig.steps; k++) {
    expect(cell(k, m.COMMAND)).toBeCloseTo(step(k), 12);
    const slope = (step(k) - step(k - 1)) * airframe.controller.rate;
    const place = m.extensionAt(rig.shape) + m.FEED_FORWARD;
    expect(cell(k, place)).toBeCloseTo(AHEAD.roll.rate * step(k) + AHEAD.roll.slope * slope, 12);
    expect(cell(k, place + 1)).toBe(0);
  }
  expect(questionOf(variant, rig).command[from], "judged by what was asked").toBe(2);
});

test("the kernel's sine and theory's attitude agree in size and phase", () => {
  const airframe = withSubsteps(both, 4);
  const gains = { p: 12 * P_UNIT, i: airframe.controller.roll.i, d: D_UNIT };
  const [hertz, periods] = [10, 12];
  const { rate: loop } = airframe.controller;
  const count = Math.round((periods * loop) / hertz);
  const w = 2 * Math.PI * hertz;
  const points = Array.from({ length: count }, (_, k) => [k / loop, rate(1e-3 * Math.sin((w * k) / loop))] as const);
  const { plan, variant, rig } = rigFor(airframe, commanding(points, count / loop));
  const scratch = scratchFor(rig);
  simulateTrial(rig, gains.p, gains.d, { from: 0, to: rig.steps }, scratch);
  const half = count / 2;
  let [re, im] = [0, 0];
  for (let k = half; k < count; k++) {
    re += (scratch.trace[k] * Math.sin((w * k) / loop) * 2) / half / 1e-3;
    im += (scratch.trace[k] * Math.cos((w * k) / loop) * 2) / half / 1e-3;
  }
  const { craft } = plan.conditions[0];
  const pieces = axisPieces(craft, variant.trim, "roll", { ...plan.holding, yaw: airframe.controller.yaw });
  const follows = (path: ReturnType<typeof commandPath>) => {
    const response = attitudeResponse(pieces, gains, path);
    const k = pieces.frequencies.findIndex((one) => one > w);
    const [before, after] = [pieces.frequencies[k - 1], pieces.frequencies[k]];
    const share = (w - before) / (after - before);
    const line = (values: Float64Array) => values[k - 1] + share * (values[k] - values[k - 1]);
    return [-w * line(response.im), w * line(response.re)] as const; // times jw
  };
  const wanted = follows(commandPath(airframe, "roll", pieces.frequencies));
  expect(Math.hypot(re - wanted[0], im - wanted[1])).toBeLessThan(0.004);
  const bare = follows(null);
  expect(Math.hypot(re - bare[0], im - bare[1])).toBeGreaterThan(0.1);
});

describe("the loop itself", () => {
  const holding = {
    roll: { p: 12 * P_UNIT, i: 40 * I_UNIT, d: D_UNIT },
    pitch: { p: 14 * P_UNIT, i: 40 * I_UNIT, d: D_UNIT },
    yaw: { p: 40 * P_UNIT, i: 30 * I_UNIT, d: 0 },
  };

  test("has the same edges of stability, digit for digit", () => {
    const edges = [stretchedX, both].map((airframe) => {
      const craft = craftUnder(airframe, FULL);
      const pieces = axisPieces(craft, trimAt(craft, 0.5), "roll", holding);
      return ultimateGain(pieces, D_UNIT, 40 * I_UNIT, { from: 3 * P_UNIT, to: 200 * P_UNIT });
    });
    expect(edges[0].length).toBeGreaterThan(0);
    expect(edges[1]).toEqual(edges[0]);
  });

  const gust: Script = {
    ...commanding([], 0.15),
    gusts: [{ kind: "pulse", at: 0.02, peak: 4, length: 1, speed: 15 }],
  };

  test("without a command is the same trial bit for bit, whatever would be fed forward", () => {
    const [plain, ahead] = [stretchedX, both].map((airframe) => {
      const { rig } = rigFor(airframe, gust);
      const scratch = scratchFor(rig);
      simulateTrial(rig, 15 * P_UNIT, D_UNIT, { from: 0, to: rig.steps }, scratch);
      return scratch.trace;
    });
    expect(ahead).toEqual(plain);
    expect(plain.some((value) => value !== 0)).toBe(true);
  });
});

describe("in a model file", () => {
  const parse = (lines: string) =>
    parseAirframe(readYaml("x.yaml", changed(SMALL_MODEL, ["  idle: 6 %\n", `  idle: 6 %\n${lines}`])));

  test("what an axis leaves out is 0, and older programs are told by the model's format", () => {
    const airframe = parse(
      "  command_low_pass: [{order: 1, cutoff: 20 Hz}]\n  feed_forward: {roll: {rate: 1 %/(100 deg/s)}}\n",
    );
    expect(airframe.controller.commandLowPass).toEqual([{ order: 1, cutoff: 20 }]);
    expect(airframe.controller.feedForward).toEqual({
      roll: { rate: P_UNIT, slope: 0 },
      pitch: { rate: 0, slope: 0 },
      yaw: { rate: 0, slope: 0 },
    });
    expect(modelFormat(airframe)).toBe("gainscape.resolved-model/2");
    expect(JSON.stringify(parseAirframe(readYaml("x.yaml", SMALL_MODEL)))).not.toMatch(/feedForward|commandLowPass/);
  });

  test.each([
    ["  command_low_pass: [{order: 1, cutoff: 15 kHz}]\n", /command_low_pass\[0\]\.cutoff: 15 kHz is not below half/],
    ["  feed_forward: {roll: {rate: 3}}\n", /feed_forward\.roll\.rate/],
    ["  feed_forward: {roll: {speed: 1 %/(100 deg/s)}}\n", /feed_forward\.roll\.speed/],
  ])("%s is refused", (lines, message) => {
    expect(() => parse(lines)).toThrow(message);
  });
});
