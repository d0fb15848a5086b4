// Models that keep every rule of the format and are like no craft on earth: whatever their trials do, the files that
// come of it hold numbers, and can be read again.
import { describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import type { Document } from "../../src/base/document.js";
import { readDocument } from "../../src/files/read.js";
import { readYaml } from "../../src/files/yaml.js";
import { planFor } from "../../src/flow/plan.js";
import { simulate } from "../../src/flow/simulate.js";
import { parseMap } from "../../src/map/parse.js";
import { renderCard, renderCsv, renderPage, renderSummary } from "../../src/report/index.js";
import { parseSweep } from "../../src/sweep/resolve.js";
import { triedSlowly } from "./cases.js";
import { type Extreme, extreme, massOf, readExtreme } from "./extreme-craft.js";
import { usedOrRefused } from "./outcome.js";

const SWEEP = `format: gainscape.sweep/1
name: extreme
title: every script, three points
grid:
  p: {from: 0.1 %/(100 deg/s), to: 1000 %/(100 deg/s), points: 2}
  d: {from: 0 %/(1000 deg/s^2), to: 500 %/(1000 deg/s^2), points: 2}
scripts:
  - {use: nudge, throttle: [hover, 100 %]}
  - {use: roll-stop, rates: [3000 deg/s]}
  - {use: wash-turn, rates: [400 deg/s]}
  - {use: gust, throttle: [1 %]}
  - {use: throttle-blip}
  - {use: hover-noise}
conditions:
  - {name: full, charge: 100 %}
  - {name: high and empty, charge: 0 %, altitude: 9000 m, temperature: -60 degC, payload: {mass: 0.1 g, at: [1 m, 1 m, 1 m]}}
boundary_tolerance: 10 %
pinned:
  roll: {p: 10 %/(100 deg/s), d: 1 %/(1000 deg/s^2)}
  pitch: {p: 1000 %/(100 deg/s), d: 500 %/(1000 deg/s^2)}
`;

const sweep = (() => {
  const document = readYaml("sweeps/extreme.yaml", SWEEP);
  return { value: parseSweep(document, readDocument), document };
})();
const provenance = { productVersion: "0", command: "c", model: "m", sweep: "s" };
const asDocument = (data: unknown): Document => ({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });

let simulated = 0;

async function survives(craft: Extreme): Promise<void> {
  const plan = usedOrRefused(() => planFor(readExtreme(craft, massOf(craft)), sweep));
  if (plan === null) return;
  simulated++;
  const { map } = await simulate(plan, { workers: 0, provenance });
  const text = canonicalJson(map); // throws on what is no number
  expect(JSON.parse(canonicalJson(parseMap(asDocument(JSON.parse(text)))))).toEqual(JSON.parse(text));
  const files = [text, renderCsv(map), renderSummary(map), await renderPage(map), await renderCard(map)];
  for (const file of files) expect(file).not.toMatch(/\bNaN\b|\bInfinity\b/);
}

describe("a craft of extremes", () => {
  it("is refused, or simulated to files that hold numbers", async () => {
    await triedSlowly(0.008, extreme, survives);
    expect(simulated).toBeGreaterThan(1);
  });
});
