// Models from answers of every kind: read back by the reader of every command, weighing exactly what was weighed.
import { describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import type { Answers } from "../../src/estimate/answers.js";
import { LAYOUTS, rotorCount, rotorPlaces } from "../../src/estimate/layout.js";
import { modelText } from "../../src/estimate/model-text.js";
import { readYaml } from "../../src/files/yaml.js";
import { readAnswers } from "../../src/flow/answers.js";

const sandpiper = readAnswers("models/answers/sandpiper.yaml", {});
const modelOf = (change: Partial<Answers>) => parseAirframe(readYaml("x.yaml", modelText({ ...sandpiper, ...change })));

describe("a model of every layout", () => {
  it.each(LAYOUTS)("%s", (layout) => {
    const six = !layout.startsWith("quadrotor");
    const weight = six ? 0.9123 : 0.4217;
    for (const ducts of ["yes", "no"] as const) {
      const model = modelOf({ layout, ducts, weight, distances: six ? [0.4] : [0.22, 0.2] });
      expect(model.rotors).toHaveLength(rotorCount(layout));
      expect(model.mass).toBeCloseTo(weight + 0.198, 12);
      expect(model.rotors.reduce((sum, { spin }) => sum + spin, 0)).toBe(0);
      expect(Math.abs(model.centreOfMass[0])).toBeLessThan(1e-6);
      expect(Math.abs(model.centreOfMass[1])).toBeLessThan(1e-6);
    }
  });

  it("has its motors where the distances say", () => {
    const apart = (layout: (typeof LAYOUTS)[number], a: number, b: number, ...distances: number[]) => {
      const places = rotorPlaces(layout, distances);
      return Math.hypot(places[a].x - places[b].x, places[a].y - places[b].y);
    };
    expect(apart("quadrotor-x", 0, 1, 0.2, 0.15)).toBeCloseTo(0.2, 12); // front left to rear left
    expect(apart("quadrotor-x", 0, 3, 0.2, 0.15)).toBeCloseTo(0.15, 12); // front left to front right
    expect(apart("quadrotor-plus", 0, 2, 0.2, 0.15)).toBeCloseTo(0.2, 12);
    expect(apart("hexacopter-x", 0, 3, 0.3)).toBeCloseTo(0.3, 3);
    expect(apart("octocopter-plus", 1, 5, 0.4)).toBeCloseTo(0.4, 3);
  });
});

describe("its text", () => {
  it.each(["no", "null", "12", "a # b", "x: y", '"quoted"', "Kn\u00f6t"])("keeps the title %s as it is", (title) => {
    expect(modelOf({ title }).title).toBe(title);
  });

  it("says of every number with a spread where it comes from", () => {
    const lines = modelText(sandpiper).split("\n");
    const bare = lines.filter(
      (line, at) => / ± | to \d/.test(line) && !line.includes("#") && !/^ *#/.test(lines[at - 1] ?? ""),
    );
    // lines of a list or group whose comment stands at its head
    expect(
      bare.every((line) => /harmonic|rms|loss|correlation/.test(line)),
      bare.join("\n"),
    ).toBe(true);
  });

  it("adds to a spread what is guessed of ducts, and estimates a propeller that was not weighed more widely", () => {
    const spread = (change: Partial<Answers>, key: string) => {
      const found = modelOf(change).spreads?.find((one) => one.key === key);
      return (found?.size ?? 0) / (found?.law === "log-normal" ? 1 : (found?.nominal ?? 1));
    };
    expect(spread({ ducts: "yes" }, "propeller.ct")).toBeGreaterThan(spread({}, "propeller.ct") + 0.02);
    const { weight: _, ...propeller } = sandpiper.propeller;
    expect(spread({ propeller }, "propeller.inertia")).toBeGreaterThan(spread({}, "propeller.inertia") + 0.1);
  });

  it("takes a bench table's number where it is the closer one, and no other", () => {
    const source = "measured: bench table";
    const near = { value: 0.061, spread: 0.06, source };
    const text = modelText(sandpiper, { resistance: near, ct: { value: 0.2, spread: 0.9, source } });
    expect(text).toContain("resistance: 61 mohm ± 6 % # measured: bench table");
    expect(text).not.toContain("ct: 0.2 ");
  });
});
