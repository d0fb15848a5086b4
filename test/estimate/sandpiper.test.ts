// Sandpiper from twelve answers beside the shipped one, which stands for the truth: its weights are the craft's, its
// propeller is a measured one, left out of the estimate; its motor and pack are as common for the size (invented).
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { drawsOf } from "../../src/airframe/draws.js";
import { at } from "../../src/base/at.js";
import { modelText } from "../../src/estimate/model-text.js";
import { PROPELLER_ROWS } from "../../src/estimate/propeller-rows.js";
import { readYaml } from "../../src/files/yaml.js";
import { readAnswers } from "../../src/flow/answers.js";
import { ANSWERS, AXES, boundaryOf, estimatedSandpiper, shippedSandpiper, THROTTLES } from "./sandpiper.js";

const others = PROPELLER_ROWS.filter(({ inches, pitchInches }) => inches !== 5 || pitchInches !== 4.3);
const text = modelText(readAnswers(ANSWERS, {}), {}, others);
const { spreads, draws } = drawsOf(readYaml("k1.yaml", text), { count: 500, seed: 1, purpose: "test", loopGain: 0 });
const truth = shippedSandpiper();

/** Where 95 of 100 draws lie. */
function band(of: (airframe: Airframe) => number): readonly [number, number] {
  const values = draws.map(({ airframe }) => of(airframe)).sort((a, b) => a - b);
  return [at(values, Math.floor(0.025 * values.length)), at(values, Math.ceil(0.975 * values.length) - 1)];
}

describe("the shipped Sandpiper", () => {
  it("was left out of the propellers its estimate rests on", () => {
    expect(others).toHaveLength(PROPELLER_ROWS.length - 1);
  });

  it.each<[string, (airframe: Airframe) => number]>([
    ["propeller.ct", ({ propeller }) => propeller.ct],
    ["propeller.cp", ({ propeller }) => propeller.cp],
    ["propeller.zero_thrust_advance", ({ propeller }) => propeller.zeroThrustAdvance],
    ["propeller.inertia", ({ propeller }) => propeller.inertia],
    ["motor.kv", ({ motor }) => 1 / motor.constant],
    ["motor.resistance", ({ motor }) => motor.resistance],
    ["motor.no_load_current", ({ motor }) => motor.noLoadCurrent],
    ["motor.bell_inertia", ({ motor }) => motor.bellInertia],
    ["pack.resistance", ({ pack }) => pack.resistance],
    ["sensing.noise", ({ sensing }) => sensing.noiseDensity],
    ["sensing.vibration[0].at_hover", ({ sensing }) => at(sensing.vibration, 0).atHover],
    ["sensing.vibration[1].at_hover", ({ sensing }) => at(sensing.vibration, 1).atHover],
    ["controller.latency", ({ controller }) => controller.latency],
    ["wash.rms", ({ wash }) => wash.rms],
    ["wash.loss", ({ wash }) => wash.loss],
    ["wash.revolutions", ({ wash }) => wash.revolutions],
    ["wash.correlation", ({ wash }) => wash.correlation],
  ])("%s lies within its spread", (key, of) => {
    expect(spreads.map((spread) => spread.key)).toContain(key);
    const [least, most] = band(of);
    expect(of(truth)).toBeGreaterThan(least);
    expect(of(truth)).toBeLessThan(most);
    expect(most / least).toBeGreaterThan(1.05);
  });

  it.each<[string, (airframe: Airframe) => number]>([
    ["mass", ({ mass }) => mass],
    ["inertia about x", ({ inertia }) => inertia.xx],
    ["inertia about y", ({ inertia }) => inertia.yy],
    ["inertia about z", ({ inertia }) => inertia.zz],
    ["centre of mass, forward", ({ centreOfMass }) => centreOfMass[0]],
    ["centre of mass, to the left", ({ centreOfMass }) => centreOfMass[1]],
    ["centre of mass, up", ({ centreOfMass }) => centreOfMass[2]],
  ])("%s lies within what the parts' spreads make of it", (_, of) => {
    const [least, most] = band(of);
    expect(of(truth)).toBeGreaterThan(least);
    expect(of(truth)).toBeLessThan(most);
  });

  it("weighs what the scale said", () => {
    const { airframe } = estimatedSandpiper();
    expect(airframe.mass).toBeCloseTo(0.421 + 0.198, 12);
    expect(airframe.mass).toBeCloseTo(truth.mass, 12);
  });
});

describe("its map", () => {
  const { airframe } = estimatedSandpiper();
  const stated = readFileSync("models/README.md", "utf8");

  it.each(AXES.flatMap((axis) => THROTTLES.map((throttle) => [axis, throttle] as const)))(
    "%s at %s: theory's sustained boundary lies as near the shipped one's as models/README.md says",
    (axis, throttle) => {
      const ratio = boundaryOf(airframe, axis, throttle) / boundaryOf(truth, axis, throttle);
      const words = new RegExp(`${axis} (\\d\\.\\d\\d) in hover and (\\d\\.\\d\\d) at 70 %`).exec(stated);
      expect(ratio.toFixed(2)).toBe(words?.[throttle === "hover" ? 1 : 2]);
      expect(Math.abs(Math.log(ratio))).toBeLessThan(Math.log(1.25));
    },
  );
});
