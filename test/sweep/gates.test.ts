// What a sweep file says about comparing: gates, the baseline, and the pinned tune.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEFAULT_GATES, type Gates, MAP_GATES } from "../../src/base/gates.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { openScript } from "../../src/flow/read.js";
import { planSweep } from "../../src/plan/plan.js";
import { parseSweep } from "../../src/sweep/resolve.js";
import { stretchedX } from "../fixtures/airframe.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { parseSmallSweep, SMALL_SWEEP } from "../fixtures/small-sweep.js";

const parsed = (...lines: string[]) => parseSmallSweep(`${SMALL_SWEEP}${lines.join("\n")}\n`);
const ofTheMap = Object.fromEntries(MAP_GATES.map(({ id, allowed }) => [id, allowed])) as Gates;
const withStrips = (line = "") => {
  const file = "test/fixtures/strips.yaml";
  return parseSweep(readYaml(file, `${readFileSync(file, "utf8")}${line}\n`), openScript).gates;
};
const complaintsIn = (...lines: string[]): string => complaintsOf(() => parsed(...lines)).join("\n");

describe("gates", () => {
  it("stand at their defaults where the file says nothing, without counting as assumed", () => {
    expect(parsed().gates).toEqual(ofTheMap);
    expect(parsed().defaulted.filter((line) => line.includes("gate"))).toEqual([]);
  });

  it("can be moved, and switched off one by one", () => {
    const { gates } = parsed("gates: {boundary_fall: 7.5 %, safe_shrink: off, new_sustained: off, start_safe: on}");
    expect(gates).toEqual({ ...ofTheMap, boundaryFall: 7.5, safeShrink: null, newSustained: null, startSafe: 0 });
  });

  it.each([
    ["gates: {boundary_fall: 5}", /gates\.boundary_fall: 5 has no unit/],
    ["gates: {boundary_fall: 5 dB}", /5 dB is a gain in decibels, expected a share .* or off/],
    ["gates: {boundary_fall: 120 %}", /out of range, expected 0 % to 100 %/],
    ["gates: {safe_shrink: none}", /gates\.safe_shrink: .*or off/],
    ["gates: {pinned_safe: 1}", /gates\.pinned_safe: expected on or off, found 1/],
    ["gates: {boundary_drop: 5 %}", /gates\.boundary_drop: unknown key/],
  ])("%s is refused", (line, message) => {
    expect(complaintsIn(line)).toMatch(message);
  });

  it("on strips stand only where the sweep asks for strips, and are refused where it does not", () => {
    expect(withStrips()).toEqual(DEFAULT_GATES);
    expect(withStrips("gates: {strip_range_fall: 20 %, strip_own_passes: off}")).toEqual({
      ...DEFAULT_GATES,
      stripRangeFall: 20,
      stripOwnPasses: null,
    });
    expect(complaintsIn("gates: {strip_range_fall: 20 %}")).toMatch(
      /gates\.strip_range_fall: the sweep asks for no strips/,
    );
    expect(parsed("gates: {strip_range_fall: off}").gates).toEqual(ofTheMap);
  });

  it("may not be finer than the boundary's tolerance", () => {
    expect(complaintsIn("gates: {boundary_fall: 0.4 %}")).toMatch(/0\.4 % is finer than boundary_tolerance, 0\.5 %/);
    expect(parsed("gates: {boundary_fall: 0.5 %}").gates.boundaryFall).toBe(0.5);
    expect(complaintsIn("boundary_tolerance: 2 %", "gates: {boundary_fall: 1.9 %}")).toMatch(
      /finer than boundary_tolerance, 2 %/,
    );
  });

  it("are no part of what is simulated: the same plan, the same digest", () => {
    const digest = (...lines: string[]) => {
      const plan = planSweep(stretchedX, parsed(...lines));
      if (!("variants" in plan)) throw new Error("no plan");
      return plan.digests;
    };
    const plain = digest();
    expect(digest("gates: {boundary_fall: 9 %}", "baseline: {candidates: [x.yaml]}")).toEqual(plain);
    expect(digest("seed: 2").plan).not.toBe(plain.plan);
  });
});

describe("a baseline", () => {
  it("names candidates and may name its own model", () => {
    expect(parsed().baseline).toBe(null);
    expect(parsed("baseline: {candidates: [a.yaml, b.yaml]}").baseline).toEqual({
      model: null,
      candidates: ["a.yaml", "b.yaml"],
    });
    expect(parsed("baseline: {model: m.yaml, candidates: [a.yaml]}").baseline?.model).toBe("m.yaml");
  });

  it.each([
    ["baseline: {}", /baseline\.candidates: missing/],
    ["baseline: {candidates: []}", /expected 1 to 32 model files, found 0/],
    ["baseline: {candidate: a.yaml}", /did you mean "candidates"/],
  ])("%s is refused", (line, message) => {
    expect(complaintsIn(line)).toMatch(message);
  });
});

describe("a pinned tune", () => {
  const tune = (p: string, d: string) =>
    `pinned: {roll: {p: ${p} %/(100 deg/s), d: ${d} %/(1000 deg/s^2)}, pitch: {p: 20 %/(100 deg/s), d: 2 %/(1000 deg/s^2)}}`;

  it("may lie anywhere on the grid, its edges included", () => {
    const { pinned } = parsed(tune("30", "0"));
    expect(pinned?.roll.p).toBeCloseTo(30 * P_UNIT, 12);
    expect(pinned?.roll.d).toBe(0);
    expect(pinned?.pitch.d).toBeCloseTo(2 * D_UNIT, 12);
  });

  it.each([
    [tune("31", "2"), /pinned\.roll\.p: 31 %\/\(100 deg\/s\) lies outside the grid, 10 .* to 30 /],
    [tune("20", "4.5"), /pinned\.roll\.d: 4\.5 %\/\(1000 deg\/s\^2\) lies outside the grid/],
  ])("beyond the grid is refused", (line, message) => {
    expect(complaintsIn(line)).toMatch(message);
  });
});
