// Two versions of the shipped Sandpiper under one small sweep with draws, at the command line.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { at } from "../../src/base/at.js";
import { toleranceInterval } from "../../src/base/tolerance-interval.js";
import type { Drift, ShiftInterval } from "../../src/compare/format.js";
import type { DrawOfMap } from "../../src/map/confidence-format.js";
import type { StabilityMap } from "../../src/map/format.js";
import { READABLE } from "./command.js";
import { runIn } from "./elsewhere.js";

const home = mkdtempSync(join(tmpdir(), "gainscape-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** The model, and the same with 3 % more speed per volt; of `exact` ones the number is exact. */
const VERSIONS = {
  sandpiper: ["r1", "1950 rpm/V ± 4 %"],
  changed: ["r8", "2010 rpm/V ± 4 %"],
  exact: ["x1", "1950 rpm/V"],
  "exact-changed": ["x8", "2010 rpm/V"],
} as const;

function replaced(text: string, from: string, to: string): string {
  if (!text.includes(from)) throw new Error(`no ${from}`);
  return text.replace(from, to);
}

const SWEEP = readFileSync("test/fixtures/pairs.yaml", "utf8").replaceAll("../../sweeps", resolve("sweeps"));
const GATES = "gates: { boundary_fall: 5 % }";

/** A sweep of the same name with other gates: nothing need be simulated for it again. */
function sweepWith(gates: string): string {
  const file = `${gates.replace(/\W+/g, "-")}.yaml`;
  writeFileSync(join(home, file), replaced(SWEEP, GATES, `gates: { ${gates} }`));
  return file;
}

const compared = (sweep: string, from: keyof typeof VERSIONS, to: keyof typeof VERSIONS) =>
  runIn(home, "compare", sweep, "--from", `${from}.yaml`, "--to", `${to}.yaml`, "--out", `${from}-to-${to}`);

const json = <T>(...path: string[]): T => JSON.parse(readFileSync(join(home, ...path), "utf8")) as T;
const mapOf = (version: keyof typeof VERSIONS): StabilityMap =>
  json("reports/pairs", `sandpiper-${VERSIONS[version][0]}`, "map.json");
const lineOf = (folder: string) => json<Drift>(folder, "drift.json").axes.pitch.shift.perD;

beforeAll(async () => {
  writeFileSync(join(home, "pairs.yaml"), SWEEP);
  const model = readFileSync("models/sandpiper-r1.yaml", "utf8");
  for (const [name, [version, kv]] of Object.entries(VERSIONS))
    writeFileSync(
      join(home, `${name}.yaml`),
      replaced(replaced(model, "version: r1", `version: ${version}`), "1950 rpm/V ± 4 %", kv),
    );
  for (const [from, to] of [
    ["sandpiper", "changed"],
    ["exact", "exact-changed"],
  ] as const)
    expect((await compared("pairs.yaml", from, to)).code).toBe(0);
});

const width = ({ low, high }: ShiftInterval): number => high - low;
const intervalOf = (folder: string, row: number): ShiftInterval => {
  const { interval } = lineOf(folder)[row] ?? {};
  if (interval === undefined) throw new Error(`no interval in ${folder}`);
  return interval;
};

describe("a drift between two versions with draws", () => {
  it("of one exact number is far narrower than what is known of either boundary, and than unpaired draws say", () => {
    const [before, after] = [mapOf("exact"), mapOf("exact-changed")];
    const drawsOf = ({ uncertainty }: StabilityMap): readonly DrawOfMap[] => uncertainty?.draws ?? [];
    for (const [row, { percent }] of lineOf("exact-to-exact-changed").entries()) {
      const interval = intervalOf("exact-to-exact-changed", row);
      expect(interval.low).toBeLessThan(percent ?? Number.NaN);
      expect(interval.high).toBeGreaterThan(percent ?? Number.NaN);
      const { low, middle, high } = at(before.axes.pitch.confidence?.band ?? [], row);
      expect((100 * ((high ?? 0) - (low ?? 0))) / (middle ?? Number.NaN)).toBeGreaterThan(10);
      expect(width(interval)).toBeLessThan(0.6);
      // Draw k against the next one of the other side.
      const unpaired = toleranceInterval(
        drawsOf(before).map(({ pitch }, k) => {
          const next = at(drawsOf(after), (k + 1) % drawsOf(after).length);
          return 100 * ((next.pitch.boundary[row] ?? Number.NaN) / (pitch.boundary[row] ?? Number.NaN) - 1);
        }),
      );
      if (unpaired === null) throw new Error("too few draws");
      expect(width(unpaired) / width(interval)).toBeGreaterThan(20);
    }
  });

  it("of a number with a spread is wider, for it is drawn on each side for itself", () => {
    for (const row of [0, 1])
      expect(width(intervalOf("sandpiper-to-changed", row))).toBeGreaterThan(
        5 * width(intervalOf("exact-to-exact-changed", row)),
      );
    expect(json<Drift>("sandpiper-to-changed", "drift.json").notes.join()).toMatch(/for itself, .*: motor\.kv\./);
    expect(json<Drift>("exact-to-exact-changed", "drift.json").notes.join()).toMatch(/for itself, .*: none\./);
  });

  it("stands on the page and in the summary", () => {
    const page = readFileSync(join(home, "sandpiper-to-changed/index.html"), "utf8");
    expect(page).toMatch(/\(\u2212[\d.]+ to \+[\d.]+\u00a0%\) at D 1000/);
    expect(page).toMatch(/90 of 100 pairs of draws lie within it/);
    expect(readFileSync(join(home, "sandpiper-to-changed/summary.md"), "utf8")).toMatch(/% up to [\d.]+\u00a0% down\)/);
  });
});

describe("gates.judge", () => {
  it.each([
    ["boundary_fall: 3 %, judge: middle", "changed", 0],
    ["boundary_fall: 3 %, judge: lower", "changed", 1],
    ["boundary_fall: 6 %, judge: lower", "changed", 0],
    ["boundary_fall: 3 %, judge: lower", "exact-changed", 0],
    ["boundary_fall: 2 %, judge: middle", "exact-changed", 1],
    ["boundary_fall: 2 %, judge: lower", "exact-changed", 1],
  ] as const)("%s: comparing with %s ends with %d", async (gates, to, code) => {
    const from = to === "changed" ? "sandpiper" : "exact";
    const ended = await compared(sweepWith(gates), from, to);
    expect([ended.code, ended.stdout]).toEqual([code, expect.stringMatching(READABLE)]);
  });

  it("holds in a gate against a baseline, and is skipped against one without draws", async () => {
    const lower = sweepWith("boundary_fall: 3 %, judge: lower");
    expect((await runIn(home, "baseline", lower, "--quiet")).code).toBe(0);
    const failed = await runIn(home, "gate", lower);
    expect([failed.code, failed.stdout]).toEqual([
      1,
      expect.stringMatching(/may fall [\d.]+\u00a0% at D 1000, 2\.03\u00a0% in/),
    ]);
    const middle = sweepWith("boundary_fall: 3 %, judge: middle");
    expect((await runIn(home, "gate", middle, "--quiet")).code).toBe(0);

    const file = join(home, "reports/baselines/pairs/sandpiper-r1.json");
    const { uncertainty, seal, ...older } = JSON.parse(readFileSync(file, "utf8"));
    expect([uncertainty.roll.boundary[0].length, seal === undefined]).toEqual([64, false]);
    writeFileSync(file, JSON.stringify(older)); // as versions before wrote it
    const skipped = await runIn(home, "gate", lower, "--unsealed");
    expect([skipped.code, skipped.stdout]).toEqual([0, expect.stringMatching(/no draws on both sides .*skipped/)]);
    expect((await runIn(home, "gate", middle, "--unsealed", "--quiet")).code).toBe(0);
  });

  it("is one of two words", async () => {
    const { code, stderr } = await runIn(home, "check", sweepWith("judge: upper"));
    expect([code, stderr]).toEqual([2, expect.stringMatching(/gates\.judge: expected middle or lower, found "?upper/)]);
  });
});
