// Models that keep every rule of the format and are like no craft on earth: whatever their trials do, the files that
// come of it hold numbers, and can be read again.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../src/airframe/craft.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { trimAt } from "../../src/airframe/trim.js";
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
import { usedOrRefused } from "./outcome.js";

/** Spread evenly over the powers of ten. */
const between = (least: number, most: number, unit: string) =>
  fc.nat(1000).map((part) => `${Number((least * (most / least) ** (part / 1000)).toPrecision(4))} ${unit}`.trim());

const extreme = fc.record({
  /** Of what full throttle lifts at sea level. */
  share: between(0.02, 0.25, ""),
  xx: between(1e-8, 1, "kg m^2"),
  yy: between(0.5, 2, ""),
  arm: between(0.8, 3, ""),
  diameter: between(2, 20, "in"),
  ct: between(0.04, 0.25, ""),
  advance: between(0.1, 3, ""),
  merit: between(0.25, 0.8, ""),
  propeller: between(1e-9, 1e-2, "kg m^2"),
  kv: between(50, 30_000, "rpm/V"),
  resistance: between(0.001, 10, "ohm"),
  bell: between(1e-9, 1e-2, "kg m^2"),
  cells: fc.integer({ min: 1, max: 14 }),
  pack: between(0.1, 2000, "mohm"),
  noise: between(1e-4, 1, "deg/s/sqrt(Hz)"),
  cutoff: between(5, 240, "Hz"),
  rate: between(500, 4000, "Hz"),
  latency: between(0.01, 20, "ms"),
  i: between(0.1, 5000, "%/(100 deg)"),
  p: between(0.1, 300, "%/(100 deg/s)"),
  d: between(0.01, 100, "%/(1000 deg/s^2)"),
  /** Whether the model declares what holds pitch and yaw, or leaves them to the plan and alone: most such gains hold nothing. */
  declared: fc.nat(3).map((draw) => draw === 0),
});

type Extreme = typeof extreme extends fc.Arbitrary<infer T> ? T : never;

/** What every model must keep: discs that do not touch, a propeller that is no perpetual motion, a body that can be. */
function model(x: Extreme, mass: string): string {
  const metres = 0.0254 * Number.parseFloat(x.diameter) * Number(x.arm);
  const arm = `${metres.toPrecision(4)} m`;
  const cp = (Math.sqrt(2 / Math.PI) * Number(x.ct) ** 1.5) / Number(x.merit);
  const xx = Number.parseFloat(x.xx);
  const inertia = `xx: ${x.xx}, yy: ${(xx * Number(x.yy)).toExponential(3)} kg m^2, zz: ${x.xx}`;
  return modelText(x, { mass, arm, cp: cp.toPrecision(4), inertia });
}

const modelText = (
  x: Extreme,
  { mass, arm, cp, inertia }: Record<"mass" | "arm" | "cp" | "inertia", string>,
): string => `format: gainscape.airframe/1
name: Extreme
version: r1
title: like nothing on earth
frame: {mass: ${mass}, centre_of_mass: [0 mm, 0 mm, 0 mm], inertia: {${inertia}}}
rotors:
  - {at: [${arm}, -${arm}, 0 mm], spin: ccw}
  - {at: [${arm}, ${arm}, 0 mm], spin: cw}
  - {at: [-${arm}, ${arm}, 0 mm], spin: ccw}
  - {at: [-${arm}, -${arm}, 0 mm], spin: cw}
propeller: {diameter: ${x.diameter}, blades: 2, ct: ${x.ct}, cp: ${cp}, zero_thrust_advance: ${x.advance}, inertia: ${x.propeller}}
motor: {kv: ${x.kv}, resistance: ${x.resistance}, no_load_current: 0.01 A, bell_inertia: ${x.bell}}
pack: {cells: ${x.cells}, capacity: 1300 mAh, resistance: ${x.pack}}
sensing: {noise: ${x.noise}, low_pass: [{order: 2, cutoff: ${x.cutoff}}]}
controller:
  rate: ${x.rate}
  latency: ${x.latency}
  idle: 6 %
  gains: {roll: {i: ${x.i}}, ${x.declared ? `pitch: {p: ${x.p}, i: ${x.i}, d: ${x.d}}, yaw: {p: ${x.p}, i: ${x.i}}` : `pitch: {i: ${x.i}}, yaw: {p: 0 %/(100 deg/s), i: 0 %/(100 deg)}`}}
`;

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

let flown = 0;

function read(craft: Extreme, mass: string) {
  const document = readYaml("models/extreme.yaml", model(craft, mass));
  return { value: parseAirframe(document), document };
}

/** A mass the craft can carry. */
function massOf(craft: Extreme): string {
  const bare = craftUnder(read(craft, "0.02 g").value, STANDARD_DAY);
  const lift = trimAt(bare, 1).speeds.reduce((sum, speed) => sum + bare.thrustStatic * speed * speed, 0);
  return `${((lift / GRAVITY) * Number(craft.share)).toPrecision(4)} kg`;
}

async function survives(craft: Extreme): Promise<void> {
  const plan = usedOrRefused(() => planFor(read(craft, massOf(craft)), sweep));
  if (plan === null) return;
  flown++;
  const { map } = await simulate(plan, { workers: 0, provenance });
  const text = canonicalJson(map); // throws on what is no number
  expect(JSON.parse(canonicalJson(parseMap(asDocument(JSON.parse(text)))))).toEqual(JSON.parse(text));
  const files = [text, renderCsv(map), renderSummary(map), await renderPage(map), await renderCard(map)];
  for (const file of files) expect(file).not.toMatch(/\bNaN\b|\bInfinity\b/);
}

describe("a craft of extremes", () => {
  it("is refused, or flown to files that hold numbers", async () => {
    await triedSlowly(0.008, extreme, survives);
    expect(flown).toBeGreaterThan(1);
  });
});
