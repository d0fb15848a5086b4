import type { Log } from "sarif";
import { describe, expect, it } from "vitest";
import { GATES } from "../../../src/base/gates.js";
import { type NightPair, renderNight, renderNightMarkdown, renderSarif } from "../../../src/report/index.js";
import { tellingGate } from "../../../src/report/night/night.js";
import { base, driftOf, unpinned, worse } from "../comparison/drifts.js";

const pair = (drift: NightPair["drift"], folder: string, changed: NightPair["changed"] = null): NightPair => ({
  drift,
  folder,
  changed,
});
const held = pair(driftOf(base(), base()), "one/a-to-b");
const moved = pair(driftOf(base(), worse()), "two sweeps/a-to-c", {
  file: "models/a file.yaml",
  line: 12,
  column: 3,
  key: "motor.kv",
});
const silent = pair(driftOf(unpinned(), unpinned()), "three/a-to-d");

describe("the gate that tells most", () => {
  it("is the gravest that failed, in the order of the catalogue", () => {
    const failed = moved.drift.gates.filter(({ outcome }) => outcome === "fail").map(({ gate }) => gate);
    expect(failed.length).toBeGreaterThan(1);
    expect(tellingGate(moved.drift)?.gate).toBe(GATES.find(({ id }) => failed.includes(id))?.id);
  });

  it("is the one nearest to its limit where all passed", () => {
    const drift = structuredClone(held.drift);
    const gates = drift.gates.map((one) =>
      one.gate === "safeShrink" && one.axis === "pitch" ? { ...one, value: 14, threshold: 15 } : one,
    );
    expect(tellingGate({ ...drift, gates })).toMatchObject({ gate: "safeShrink", axis: "pitch" });
  });

  it("is none where nothing moved towards a limit", () => {
    expect(tellingGate(held.drift)).toBeNull();
    expect(renderNightMarkdown([held])).toContain("nothing moved towards a limit");
  });
});

describe("the summary of a night", () => {
  const text = renderNightMarkdown([held, moved, silent]);
  const [first = ""] = text.split("\n");

  it("counts pairs, regressions and gates that were not judged in its first line", () => {
    const skipped = [held, moved, silent]
      .flatMap(({ drift }) => drift.gates)
      .filter(({ skipReason }) => skipReason !== null && skipReason !== "switched off").length;
    expect(skipped).toBeGreaterThan(0);
    expect(first).toBe(`## 3 compared, 1 with a regression; ${skipped} of 30 gates not judged`);
  });

  it("has one row a pair, regressions first, each with a link to its page", () => {
    const rows = text.split("\n").filter((line) => line.includes("index.html"));
    expect(rows).toHaveLength(3);
    expect(rows[0]).toMatch(/^\|.*\*\*Regression.*\(<two%20sweeps\/a-to-c\/index\.html>\) \|$/);
  });
});

describe("the front page of a night", () => {
  it("says the outcome first, then one row a pair, and loads nothing", async () => {
    const page = await renderNight([held, moved, silent], "gainscape gate a.yaml");
    expect(page).toMatch(/<h1>A model moved too far<\/h1>\s*<p class="answer bad">3 compared, 1 with a regression;/);
    expect(page.match(/<tr class="(regression|pass)">/g)).toEqual([
      '<tr class="regression">',
      '<tr class="pass">',
      '<tr class="pass">',
    ]);
    expect(page).toContain('href="two%20sweeps/a-to-c/index.html"');
    expect(page).not.toMatch(/<script|src=|href="http/);
    expect(await renderNight([held], "x")).toContain("<h1>Every model holds</h1>");
  });
});

// Static Analysis Results Interchange Format (SARIF) 2.1.0, OASIS Standard, 27 March 2020; its types are those of
// @types/sarif, made from the standard's own schema, against which the program is compiled as well.
describe("the SARIF file", () => {
  const log = JSON.parse(renderSarif([held, moved, silent], "0.1.0")) as Log;
  const [run] = log.runs;
  const results = run?.results ?? [];

  it("has one result per gate that failed or could not be judged, each under a rule that is there (3.27, 3.49)", () => {
    expect(log.version).toBe("2.1.0");
    const counted = [held, moved, silent]
      .flatMap(({ drift }) => drift.gates)
      .filter(({ outcome, skipReason }) => outcome !== "pass" && skipReason !== "switched off");
    expect(results).toHaveLength(counted.length);
    const rules = run?.tool.driver.rules?.map(({ id }) => id);
    expect(rules).toEqual(GATES.map(({ id }) => id));
    for (const { ruleId } of results) expect(rules).toContain(ruleId);
  });

  it('says level "none" where the kind is not "fail" (3.27.9, 3.27.10)', () => {
    for (const { kind, level } of results)
      expect([kind, level]).toEqual(kind === "fail" ? ["fail", "error"] : [kind, "none"]);
    expect(new Set(results.map(({ kind }) => kind))).toEqual(new Set(["fail", "notApplicable"]));
  });

  it("points at the line that changed, by a relative reference that is a URI (3.4.3, RFC 3986)", () => {
    const places = results
      .filter(({ kind }) => kind === "fail")
      .map(({ locations }) => locations?.[0]?.physicalLocation);
    expect(places.length).toBeGreaterThan(0);
    for (const place of places)
      expect(place).toEqual({
        artifactLocation: { uri: "models/a%20file.yaml" },
        region: { startLine: 12, startColumn: 3 },
      });
  });

  it("keeps a finding's fingerprint from night to night, and no two the same (3.27.17)", () => {
    const prints = (text: string) =>
      (JSON.parse(text) as Log).runs[0]?.results?.map(({ partialFingerprints }) => partialFingerprints?.["gate/v1"]) ??
      [];
    const today = prints(renderSarif([moved], "0.1.0"));
    expect(new Set(today).size).toBe(today.length);
    const tomorrow = structuredClone(moved.drift);
    const gates = tomorrow.gates.map((gate) => ({ ...gate, value: gate.value === null ? null : 2 * gate.value }));
    expect(prints(renderSarif([{ ...moved, drift: { ...tomorrow, gates } }], "0.2.0"))).toEqual(today);
  });
});
