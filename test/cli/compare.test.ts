import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { GATES, MAP_GATES, type MapGateId } from "../../src/base/gates.js";
import { sealed } from "../../src/base/seal.js";
import type { Drift, GateResult } from "../../src/compare/format.js";
import { sweepDigest } from "../../src/plan/plan.js";
import { emptyFolder, READABLE, run } from "./command.js";
import { runIn, workplace } from "./elsewhere.js";

const SWEEP = "test/fixtures/nightly.yaml";
const R1 = "models/sandpiper-r1.yaml";

const root = mkdtempSync(join(tmpdir(), "gainscape-"));
const [good, other, bad] = ["good", "other", "bad"].map((name) => join(root, name)) as [string, string, string];
afterAll(() => rmSync(root, { recursive: true, force: true }));

beforeAll(async () => {
  const spoilt = join(root, "bad.yaml");
  const text = readFileSync(R1, "utf8")
    .replace(/^version: .*/m, "version: bad")
    .replace(/^ {2}latency: .*/m, "  latency: 6 ms")
    .replace(/^ {2}low_pass: .*/m, "  low_pass: [{order: 2, cutoff: 60 Hz}]")
    // Yaw would be unstable as well, which is refused.
    .replace("yaw: {p: 30 ", "yaw: {p: 12 ");
  writeFileSync(spoilt, text);
  for (const [folder, model] of [
    [good, R1],
    [other, "models/sandpiper-r2.yaml"],
    [bad, spoilt],
  ] as const)
    expect((await run("sweep", SWEEP, "--model", model, "--out", folder, "--quiet")).code).toBe(0);
});

/** The map of a folder with every gate off but one, which allows what is given. */
function onlyGate(folder: string, gate: MapGateId, allowed: number): string {
  const map = JSON.parse(readFileSync(join(folder, "map.json"), "utf8"));
  const off = Object.fromEntries(GATES.map(({ id }) => [id, null]));
  map.plan.sweep.gates = { ...off, [gate]: allowed };
  const file = join(emptyFolder(), "map.json");
  writeFileSync(file, canonicalJson(sealed(map)));
  return file;
}

const driftIn = (folder: string): Drift => JSON.parse(readFileSync(join(folder, "drift.json"), "utf8"));

async function compared(base: string, candidate: string) {
  const out = emptyFolder();
  const ended = await run("compare", base, candidate, "--out", out);
  return { ...ended, out, drift: driftIn(out) };
}

describe("gainscape compare BASE CANDIDATE", () => {
  it("ends with 0 where nothing moved, and writes every file in full", async () => {
    const { code, stdout, stderr, out, drift } = await compared(good, join(good, "map.json"));
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(stdout).toMatch(/^Sandpiper r1 → r1, Night watch: No regression\./);
    expect(drift).toMatchObject({ format: "gainscape.drift/2", outcome: "pass" });
    for (const file of ["index.html", "junit.xml", "summary.md", "drift.json"])
      expect(statSync(join(out, file)).size).toBeGreaterThan(400);
  });

  it("ends with 1 at a regression and says which gates", async () => {
    const { code, stdout, drift } = await compared(good, bad);
    expect(code).toBe(1);
    expect(stdout).toContain("Sandpiper r1 → bad, Night watch: Regression: 10 gates failed.");
    expect(stdout).toMatch(/Roll, pinned P 2250, D 2400: No longer safe\./);
    expect(drift.outcome).toBe("regression");
    expect(drift.model.map(({ key, before, after }) => [key, before, after])).toContainEqual([
      "controller.latency",
      "0.75 ms",
      "6 ms",
    ]);
  });

  it("gives the same bytes every time", async () => {
    const [one, two] = [await compared(good, other), await compared(good, other)];
    for (const file of ["index.html", "junit.xml", "summary.md", "drift.json"]) {
      // The seal is over the command as well, which names the folder.
      const text = (folder: string) =>
        readFileSync(join(folder, file), "utf8")
          .replaceAll(folder, "")
          .replace(/"seal": "[0-9a-f]{64}"/, "");
      expect(text(two.out)).toBe(text(one.out));
    }
  });

  it("prints the decision as JSON with --json, and nothing with --quiet", async () => {
    const out = emptyFolder();
    const json = await run("compare", good, other, "--out", out, "--json");
    expect(JSON.parse(json.stdout)).toMatchObject({ outcome: "pass", files: { drift: join(out, "drift.json") } });
    expect(await run("compare", good, bad, "--out", out, "--quiet")).toMatchObject({ code: 1, stdout: "", stderr: "" });
  });
});

describe("each gate, alone, by a real command", () => {
  const result = (drift: Drift, gate: MapGateId): GateResult[] => drift.gates.filter((one) => one.gate === gate);

  it.each(MAP_GATES.map(({ id, allowed }) => [id, allowed] as const))("%s fails and passes", async (gate, allowed) => {
    const failing = await compared(good, onlyGate(bad, gate, allowed));
    expect([gate, failing.code]).toEqual([gate, 1]);
    expect(result(failing.drift, gate).some(({ outcome }) => outcome === "fail")).toBe(true);
    expect(failing.drift.gates.every((one) => one.gate === gate || one.skipReason === "switched off")).toBe(true);
    const passing = await compared(good, onlyGate(other, gate, allowed));
    expect([gate, passing.code]).toEqual([gate, 0]);
    expect(result(passing.drift, gate).some(({ outcome }) => outcome === "pass")).toBe(true);
  });

  it.each(["boundaryFall", "safeShrink"] as const)("%s turns at its threshold", async (gate) => {
    const { drift } = await compared(good, bad);
    const largest = Math.max(...result(drift, gate).map(({ value }) => value ?? 0));
    expect((await compared(good, onlyGate(bad, gate, largest))).code).toBe(0);
    expect((await compared(good, onlyGate(bad, gate, largest - 1e-6))).code).toBe(1);
  });
});

describe("sides that cannot be compared", () => {
  it("end with 2 and list every difference with both values", async () => {
    const map = JSON.parse(readFileSync(join(good, "map.json"), "utf8"));
    map.plan.sweep.limits.overshoot = 20;
    map.limits.overshoot = 20;
    map.plan.sweep.conditions[0].charge = 0.9;
    map.plan.conditions[0].condition.charge = 0.9;
    map.sweep.digest = sweepDigest(map.plan.sweep);
    const file = join(emptyFolder(), "map.json");
    writeFileSync(file, canonicalJson(sealed(map)));
    const { code, stdout, stderr } = await run("compare", good, file);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain("limits.overshoot: 20, but 15 in");
    expect(stderr).toContain("conditions.fresh pack.charge: 90 %, but 100 % in");
    expect(stderr).toMatch(/not comparable/);
  });

  it("end with 2 where one map is about other P than its plan says, by key", async () => {
    const file = join(emptyFolder(), "map.json");
    const map = JSON.parse(readFileSync(join(good, "map.json"), "utf8"));
    map.axes.roll.grid.p = map.axes.roll.grid.p.map((p: number) => 1.01 * p);
    writeFileSync(file, canonicalJson(sealed(map)));
    for (const sides of [
      [good, file],
      [file, good],
      [good, file, "--unsealed"],
    ]) {
      const { code, stdout, stderr } = await run("compare", ...sides);
      expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
      expect(stderr).toMatch(/map\.json axes\.roll\.grid\.p\[0\]: \S+ here, \S+ in the plan/);
    }
  });

  it.each([
    ["no map at all", "{}", /format: missing; expected gainscape\.map\/2/],
    ["another format", '{"format": "gainscape.map/9"}', /gainscape\.map\/9 is newer than gainscape\.map\/2/],
    ["cut short", '{"format": "gainscape.map/2", "grid', /not JSON that can be read/],
    ["a hollow map", '{"format": "gainscape.map/2"}', /model: missing/],
    [
      "a number that is none",
      '{"format": "gainscape.map/2", "x": 1e999}',
      /seal: broken, the file holds a number too large/,
    ],
    ["control characters", '{"format": "\\u001b[2J"}', /format/],
  ])("with %s end with 2, readably", async (_, text, message) => {
    const file = join(emptyFolder(), "map.json");
    writeFileSync(file, text);
    const { code, stderr } = await run("compare", good, file);
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(READABLE);
  });

  it.each([
    [["compare", "a.json"], /expected two maps/],
    [["compare", "a", "b", "--from", "c"], /expected two maps/],
    [["compare", SWEEP, "--from", R1], /expected two maps/],
    [["compare", "nowhere", "nowhere"], /nowhere: no such file/],
    [["compare", "models", "models"], /no such file/],
    [["compare", "a", "b", "--out", ""], /out/],
  ])("by usage: %s", async (words, message) => {
    const { code, stdout, stderr } = await run(...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(READABLE);
  });
});

describe("a map that was changed after it was made", () => {
  function changedMap(): string {
    const file = join(emptyFolder(), "map.json");
    const text = readFileSync(join(good, "map.json"), "utf8");
    writeFileSync(file, text.replace(/"title":"[^"]*"/, '"title":"Renamed"'));
    return file;
  }

  it("is refused in one line on either side and by report, and nothing is written", async () => {
    const file = changedMap();
    const out = emptyFolder();
    for (const words of [
      ["compare", good, file],
      ["compare", file, good],
      ["report", file],
    ]) {
      const { code, stdout, stderr } = await run(...words, "--out", join(out, "none"));
      expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
      expect(stderr).toMatch(/^\S+map\.json seal: broken, [^\n]+ --unsealed\n$/);
    }
    expect(readdirSync(out)).toEqual([]);
  });

  it("is taken with --unsealed, which every file and the outcome say", async () => {
    const [file, out] = [changedMap(), emptyFolder()];
    const notice = "The candidate was changed by hand after it was made";
    const { code, stdout } = await run("compare", good, file, "--unsealed", "--out", out);
    expect([code, stdout.includes(notice)]).toEqual([0, true]);
    for (const name of ["index.html", "junit.xml", "summary.md", "drift.json"])
      expect([name, readFileSync(join(out, name), "utf8").includes(notice)]).toEqual([name, true]);
    const json = await run("compare", good, file, "--unsealed", "--out", out, "--json");
    expect(JSON.parse(json.stdout).notes).toEqual([expect.stringContaining(notice)]);
    const drawn = await run("report", file, "--unsealed", "--out", out);
    expect([drawn.code, drawn.stderr]).toEqual([0, expect.stringContaining("its seal is broken")]);
    for (const name of ["index.html", "card.html"])
      expect([name, readFileSync(join(out, name), "utf8").includes("its seal is broken")]).toEqual([name, true]);
    // Where nothing was changed nothing is said.
    const intact = await run("compare", good, other, "--unsealed", "--out", out, "--json");
    expect(JSON.parse(intact.stdout).notes).toEqual([]);
  });
});

describe("gainscape compare SWEEP --from MODEL --to MODEL", () => {
  it("simulates what is missing, uses what is there, and finds what comparing the maps finds", async () => {
    const home = workplace();
    mkdirSync(join(home, "test/fixtures"), { recursive: true });
    copyFileSync(SWEEP, join(home, SWEEP));
    const words = ["compare", SWEEP, "--from", R1, "--to", "models/sandpiper-r2.yaml"];
    const first = await runIn(home, ...words);
    expect([first.code, first.stderr.includes("trials")]).toEqual([0, true]);
    const folder = join(home, "reports/comparisons/nightly/sandpiper-r1-to-sandpiper-r2");
    const drift = driftIn(folder);
    expect(drift.axes).toEqual((await compared(good, other)).drift.axes);
    const map = join(home, "reports/nightly/sandpiper-r1/map.json");
    const written = statSync(map).mtimeMs;
    const second = await runIn(home, ...words);
    const used = ["r1", "r2"].map(
      (at) => `using the map in reports/nightly/sandpiper-${at}; --fresh simulates it again\n`,
    );
    expect([second.code, second.stderr]).toEqual([0, used.join("")]);
    expect(statSync(map).mtimeMs).toBe(written);
    expect(driftIn(folder)).toEqual(drift);
    const intact = readFileSync(map, "utf8");
    writeFileSync(map, intact.replace('"safeShare":', '"safeShare":1'));
    const changed = await runIn(home, ...words);
    expect([changed.code, changed.stderr]).toEqual([2, expect.stringMatching(/map\.json seal: broken, [^\n]+\n$/)]);
    expect(await runIn(home, ...words, "--quiet", "--unsealed")).toMatchObject({ code: 0, stderr: "" });
    expect(driftIn(folder).notes).toEqual([expect.stringContaining("The base was changed by hand")]);
    writeFileSync(map, intact.slice(0, 500)); // cut short: as good as missing
    expect(await runIn(home, ...words, "--quiet")).toMatchObject({ code: 0, stderr: "" });
    expect((await runIn(home, ...words, "--fresh")).stderr).not.toContain("using the map");
    expect(driftIn(folder).axes).toEqual(drift.axes);
  });
});
