// Theory's first answer of a sweep: before any trial, for people on standard error, for programs as the first of several lines.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseSweepLine } from "../../src/flow/sweep-lines.js";
import type { StabilityMap } from "../../src/map/format.js";
import { emptyFolder, READABLE, run, runWith } from "./command.js";

const GLANCE = "test/fixtures/glance.yaml";
/** Of Sandpiper r1 in its controller's own numbers, with ours beside them. */
const FIRST =
  /^By theory alone, an estimate that the trials now check and not yet a tune to fly:\n {2}Roll: start near P \d+ \([\d.]+\u00a0% per 100\u00a0°\/s\), D \d+ \(.*\), with margins of [\d.]+\u00a0dB and \d+°; at this D the oscillation no longer dies out from P \d+ up \(.* throttle, fresh pack.*\)\.\n {2}Pitch: start near P .*\n/;

describe("theory's first answer", () => {
  it("stands before the estimate and the first trial; the outcome says how far it was off", async () => {
    const { code, stdout, stderr } = await run("sweep", GLANCE, "--out", emptyFolder());
    expect(code).toBe(0);
    expect(stderr).toMatch(FIRST);
    expect(stderr.replace(FIRST, "")).toMatch(/^estimate: .*\ngrid: /);
    expect(stdout).not.toContain("By theory alone");
    expect(stdout).toMatch(/^Theory( alone had said: |’s first start of )/m);
    expect(stdout + stderr).toMatch(READABLE);
  });

  it("waits for no trial: it is there where none can be simulated", async () => {
    const none = { environment: { SABOTAGE: "threads", SABOTAGE_AFTER: "0" }, preload: "test/cli/sabotage.mjs" };
    const { code, stderr } = await runWith(none, "sweep", GLANCE, "--out", emptyFolder(), "--no-cache");
    expect(code).toBe(3);
    expect(stderr).toMatch(FIRST);
    expect(stderr).not.toContain("grid: ");
  });

  it("is not printed where the folder will not do, nor with --quiet or --json", async () => {
    const refused = await run("sweep", GLANCE, "--out", "package.json");
    expect(refused).toMatchObject({ code: 2, stdout: "", stderr: expect.not.stringContaining("theory") });
    for (const option of ["--quiet", "--json"]) {
      const { code, stdout, stderr } = await run("sweep", GLANCE, "--out", emptyFolder(), option);
      expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
      expect(stdout).not.toContain("heory");
    }
  });
});

describe("--json-lines", () => {
  it("prints theory first, then progress, then the outcome as --json has it", async () => {
    const out = emptyFolder();
    const { code, stdout, stderr } = await run("sweep", GLANCE, "--out", out, "--json-lines", "--no-cache");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const texts = stdout.trimEnd().split("\n");
    const lines = texts.map(parseSweepLine);
    expect(lines.map(({ record }) => record)).toEqual([
      "theory",
      ...Array.from({ length: lines.length - 2 }, () => "progress"),
      "outcome",
    ]);
    expect(lines.length).toBeGreaterThan(3);
    expect(lines.at(-2)).toMatchObject({ record: "progress", stage: "grid", trials: 36, cached: 0, of: 36 });
    const { record: _, figures, ...outcome } = JSON.parse(texts.at(-1) ?? "");
    const whole = await run("sweep", GLANCE, "--out", out, "--json", "--no-cache");
    const { figures: again, ...asJson } = JSON.parse(whole.stdout);
    expect(outcome).toEqual(asJson);
    expect(figures.trials).toBe(again.trials);
    const map: StabilityMap = JSON.parse(readFileSync(join(out, "map.json"), "utf8"));
    expect(outcome.roll.start).toEqual(map.axes.roll.start);
  });

  it("with --quiet the outcome alone; with --json or --shard it is refused", async () => {
    const quiet = await run("sweep", GLANCE, "--out", emptyFolder(), "--json-lines", "--quiet");
    expect(quiet.stdout.trimEnd().split("\n").map(parseSweepLine)).toMatchObject([{ record: "outcome" }]);
    for (const other of [["--json"], ["--shard", "1/2"]]) {
      const { code, stdout, stderr } = await run("sweep", GLANCE, "--json-lines", ...other);
      expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
      expect(stderr).toMatch(/^error: option '--json-lines' cannot be used with option '--(json|shard .*)'\n/);
    }
  });

  it("a line that is none of a sweep's is refused", () => {
    for (const line of ['{"record":"progress","stage":"grid"}', '{"record":"theory"}', "{}", "grid: 10 %"])
      expect(() => parseSweepLine(line)).toThrow();
  });
});
