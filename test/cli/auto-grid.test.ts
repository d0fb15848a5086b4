// grid: auto and skipped gates on the command line: where files go, what is said, and how the run ends.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { filesBelow, runIn, workplace } from "./elsewhere.js";

const sweepText = (grid: string, gates: string) => `format: gainscape.sweep/1
name: pair
title: Pair
model: ../models/sandpiper-r1.yaml
grid: ${grid}
scripts: [{use: nudge}]
conditions: [{name: fresh pack, charge: 100 %}]
boundary_tolerance: 2 %
gates: {${gates}}
baseline: {candidates: [../models/sandpiper-r2.yaml]}
`;
/** Pitch's boundary, at P 60 and more on the Sandpiper, lies above it on both sides. */
const LOW =
  "{p: {from: 4 %/(100 deg/s), to: 30 %/(100 deg/s), points: 8}, d: {from: 0.2 %/(1000 deg/s^2), to: 1 %/(1000 deg/s^2), points: 3}}";
const SIDES = ["--from", "models/sandpiper-r1.yaml", "--to", "models/sandpiper-r2.yaml"];

let home = "";
const write = (grid: string, gates: string): void =>
  writeFileSync(join(home, "sweeps/pair.yaml"), sweepText(grid, gates));
const json = (file: string) => JSON.parse(readFileSync(join(home, file), "utf8"));
beforeAll(() => {
  home = workplace(undefined, mkdtempSync(join(tmpdir(), "gainscape-")));
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe("a comparison under grid: auto", () => {
  it("simulates the candidate on the base's lines, beside the comparison, and leaves the candidate's own map alone", async () => {
    write("auto 8 x 8", "pinned_safe: off");
    expect((await runIn(home, "sweep", "sweeps/pair.yaml", "--model", SIDES[3] as string, "--quiet")).code).toBe(0);
    const own = readFileSync(join(home, "reports/pair/sandpiper-r2/map.json"), "utf8");
    expect((await runIn(home, "compare", "sweeps/pair.yaml", ...SIDES, "--quiet")).code).toBeLessThan(2);
    expect(readFileSync(join(home, "reports/pair/sandpiper-r2/map.json"), "utf8")).toBe(own);
    const pair = "reports/comparisons/pair/sandpiper-r1-to-sandpiper-r2";
    const [base, candidate] = [json("reports/pair/sandpiper-r1/map.json"), json(`${pair}/candidate/map.json`)];
    expect(candidate.axes.roll.grid).toEqual(base.axes.roll.grid);
    expect(JSON.parse(own).axes.roll.grid).not.toEqual(base.axes.roll.grid);
    expect(candidate.provenance.command).toBe(`gainscape compare sweeps/pair.yaml ${SIDES.join(" ")}`);
    expect(
      candidate.assumptions.some((line: string) => /^Grid of roll: 8 lines of P.* compared with\.$/.test(line)),
    ).toBe(true);
    expect(existsSync(join(home, pair, "base"))).toBe(false); // the base's map is its own
  });

  it("has a boundary to judge at every D up to the last of safe ground, on both axes", async () => {
    const { gates } = json("reports/comparisons/pair/sandpiper-r1-to-sandpiper-r2/drift.json");
    const judged = gates.filter(({ gate }: { gate: string }) => gate === "boundaryFall");
    expect(judged.map(({ outcome }: { outcome: string }) => outcome)).not.toContain("skipped");
    for (const { judgedLines } of judged) expect(judgedLines.lines).toBeGreaterThan(3);
  });
});

describe("a gate that cannot be judged", () => {
  it("says why in the summary, and ends the run with 1 under skipped: fail alone", async () => {
    for (const [gates, code] of [
      ["pinned_safe: off, skipped: pass", 0],
      ["pinned_safe: off, skipped: fail", 1],
    ] as const) {
      write(LOW, gates);
      expect((await runIn(home, "baseline", "sweeps/pair.yaml", "--quiet")).code).toBe(0);
      const ended = await runIn(home, "gate", "sweeps/pair.yaml");
      expect([gates, ended.code]).toEqual([gates, code]);
      const [pair = ""] = filesBelow(join(home, "reports/gate")).filter((file) => /-to-.*summary\.md$/.test(file));
      const summary = readFileSync(pair, "utf8");
      expect(summary).toMatch(
        code === 0
          ? /\| Sustained boundary holds \| pitch \| no boundary in the grid \| .* \| skipped \|/
          : /\| Sustained boundary holds \| pitch \| not judged: no boundary in the grid \| .* \| \*\*FAILED\*\* \|/,
      );
      const junit = readFileSync(join(home, "reports/gate/junit.xml"), "utf8");
      expect(junit.includes("<failure")).toBe(code === 1);
      expect(junit).toContain("switched off"); // stays skipped
    }
  });
});
