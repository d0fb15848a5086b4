// `gainscape fit` from files to files: the shipped flight, whose craft nobody told it.
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { at } from "../../src/base/at.js";
import { InputError } from "../../src/base/problem.js";
import { readYaml } from "../../src/files/yaml.js";
import { type FitOutcome, fitFlights, nextVersion } from "../../src/flow/fit.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import { HIDDEN } from "../demonstration/hidden-craft.mjs";

const FLIGHT = "models/flights/meadow-2.yaml";
const SWEEP = "test/fixtures/draws.yaml";
const folder = mkdtempSync(join(tmpdir(), "fit-"));
const request = { files: [FLIGHT], model: null, sweep: SWEEP, out: null, command: "gainscape fit" };
const refused = async (work: Promise<unknown>) => {
  const error = await work.then(
    () => null,
    (reason) => reason,
  );
  expect(error).toBeInstanceOf(InputError);
  return (error as InputError).message;
};

let made: FitOutcome;
beforeAll(async () => {
  made = await fitFlights(request);
});

describe("a fit of the shipped flight", () => {
  it("narrows what the hidden craft differs in, and holds it", () => {
    const number = at(
      made.file.numbers.filter(({ key }) => key === "motor.resistance"),
      0,
    );
    const hidden = Number.parseFloat(HIDDEN["motor.resistance"]) / 1000;
    expect(number.learnt).toBeGreaterThan(0.3);
    expect(number.after.low).toBeLessThan(hidden);
    expect(number.after.high).toBeGreaterThan(hidden);
  });

  it("gives a model that reads back as what fit.json says, and keeps everything else", () => {
    const { text, model } = made.model;
    expect(model.value.version).toBe("r1-f1");
    const again = parseAirframe(readYaml("again.yaml", text));
    expect(again).toEqual(model.value);
    for (const { key, after, before } of made.file.numbers) {
      const spread = again.spreads?.find((one) => one.key === (key === "loop gain" ? "loop_gain" : key));
      expect(spread?.nominal, key).toBeCloseTo(
        after.middle,
        12 - Math.ceil(12 + Math.log10(Math.abs(after.middle) / 1e3)),
      );
      if (after.middle === before.middle) expect(text).toContain("± ");
    }
    const original = readFileSync("models/sandpiper-r1.yaml", "utf8").split("\n");
    const lines = new Set(text.split("\n"));
    expect(original.filter((line) => !lines.has(line)).length).toBeLessThan(12);
    expect(text).toContain("# winding, leads and speed controller; fitted, was 75 mohm ± 30 %");
  });

  it("warns of own numbers where the log contradicts the model, and adds what one unit of I is worth", async () => {
    expect(made.file.advice.join(" ")).not.toContain("one_unit");
    const text = readFileSync("models/sandpiper-r1.yaml", "utf8").replace(
      / {4}p: 0\.004 (.*)\n {4}i: .*\n( {4}d: .*\n) {4}yaw: .*\n/,
      "    p: 0.002 $1\n$2",
    );
    const other = join(folder, "half.yaml");
    writeFileSync(other, text);
    const { file, model } = await fitFlights({ ...request, model: other });
    expect(file.advice[0]).toMatch(
      /^By the log one unit of P is worth 2 times what controller\.one_unit says: do not set/,
    );
    expect(model.text).toMatch(
      /one_unit:.*\n {4}p: 0\.002 .*\n {4}d: 0\.0005 .*\n {4}i: 0\.0(19|20)\d* %\/\(100 deg\) # fitted/,
    );
    expect(model.model.value.controller.scale?.i).toBeGreaterThan(0);
  });

  it("is the same to the byte when made again", async () => {
    const again = await fitFlights(request);
    expect(JSON.stringify(again.file)).toBe(JSON.stringify(made.file));
    expect(again.model.text).toBe(made.model.text);
  });

  it("shows the band that sweeping the new model gives, but for what its trials move it by", async () => {
    const file = join(folder, "fitted.yaml");
    writeFileSync(file, made.model.text);
    const model = readAirframe(file);
    const plan = planFor(model, readSweep(SWEEP));
    const { map } = await simulate(plan, {
      workers: 0,
      model: model.document,
      provenance: { productVersion: "0", command: "", model: "", sweep: "" },
    });
    for (const axis of ["roll", "pitch"] as const) {
      const shown = made.file.axes[axis].band.after;
      const swept = map.axes[axis].confidence?.band ?? [];
      expect(swept).toHaveLength(shown.length);
      for (const [k, { low, middle, high }] of shown.entries()) {
        const other = at(swept, k);
        expect(other.d).toBeCloseTo(at(shown, k).d, 8);
        if (low === null || middle === null || high === null || other.middle === null) continue;
        const moved = other.middle / middle;
        expect(Math.abs(moved - 1)).toBeLessThan(0.02);
        expect((other.low ?? 0) / low / moved).toBeCloseTo(1, 6);
        if (other.high !== null) expect(other.high / high / moved).toBeCloseTo(1, 6);
      }
    }
  });
});

describe("what a fit refuses", () => {
  it("the same flight twice", async () => {
    expect(await refused(fitFlights({ ...request, files: [FLIGHT, FLIGHT] }))).toBe(
      `${FLIGHT}: the same flight as ${FLIGHT}; a pack counts once, expected each a single time`,
    );
  });

  it("another account of the same log", async () => {
    const text = readFileSync(FLIGHT, "utf8")
      .replace("second pack", "another pack")
      .replace("../sandpiper-r1.yaml", resolve("models/sandpiper-r1.yaml"))
      .replace("meadow-2.csv", resolve("models/flights/meadow-2.csv"));
    const other = join(folder, "other.yaml");
    writeFileSync(other, text);
    expect(await refused(fitFlights({ ...request, files: [FLIGHT, other] }))).toContain(
      "another account of the same log",
    );
  });

  it("a flight that is in the model already", async () => {
    const file = join(folder, "held.yaml");
    writeFileSync(file, made.model.text);
    expect(await refused(fitFlights({ ...request, model: file }))).toBe(
      `${FLIGHT}: is in ${file} already ("second pack over the meadow"); one pack counts once`,
    );
  });

  it("a flight of another craft", async () => {
    expect(await refused(fitFlights({ ...request, model: "models/dunlin-r1.yaml" }))).toContain(
      "a flight of Sandpiper r1, where models/dunlin-r1.yaml is Dunlin r1",
    );
  });
});

it("sightings alone are fitted: an oscillation that stayed lowers the boundary", async () => {
  const file = join(folder, "seen.yaml");
  const model = resolve("models/sandpiper-r1.yaml");
  writeFileSync(
    file,
    `format: gainscape.flight/1
title: seen
model: ${model}
pack: {charge: 90 %}
sightings:
  - {hover_throttle: 36 % ± 2 %}
  - {axis: roll, gains: {p: "45 %/(100 deg/s)", d: "1 %/(1000 deg/s^2)"}, died_out: no, frequency: 17 Hz ± 2 Hz}
`,
  );
  const { file: fit } = await fitFlights({ ...request, files: [file] });
  const middle = (band: typeof fit.axes.roll.band.before) => at(band, Math.floor(band.length / 2)).middle ?? 0;
  const { before, after } = fit.axes.roll.band;
  expect(middle(after)).toBeLessThan(middle(before));
  expect(fit.axes.roll.response).toBe(null);
});

it("a version goes on from the one before", () => {
  expect(["r1", "r1-f1", "r1-f9"].map(nextVersion)).toEqual(["r1-f1", "r1-f2", "r1-f10"]);
});
