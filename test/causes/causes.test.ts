// Where nothing is safe the map says why in the craft's terms. Each craft is the shipped Sandpiper with one thing made worse; the
// thing named must be that one, and mending it in the model must give a starting tune.

import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { canonicalJson } from "../../src/base/canonical.js";
import { P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { planFor } from "../../src/flow/plan.js";
import { readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { renderCard, renderPage, renderSummary } from "../../src/report/index.js";
import { madeOnce } from "../fixtures/made-once.js";
import { changed } from "../fixtures/small-model.js";

const SANDPIPER = readFileSync("models/sandpiper-r1.yaml", "utf8");
type Change = readonly [from: string, to: string];

/** The small sweep's map of the Sandpiper with these changes. */
async function mapOf(name: string, changes: readonly Change[]): Promise<StabilityMap> {
  const document = readYaml(`${name}.yaml`, changed(SANDPIPER, ...changes));
  const plan = planFor({ value: parseAirframe(document), document }, readSweep("test/fixtures/causes.yaml"));
  const provenance = { productVersion: "0", command: "gainscape sweep x", model: "m.yaml", sweep: "s.yaml" };
  const made = async () => canonicalJson((await simulate(plan, { workers: 0, provenance })).map);
  return JSON.parse(await madeOnce(`causes-${name}.json`, made)) as StabilityMap;
}

interface Case {
  readonly name: string;
  readonly axis: "roll" | "pitch";
  readonly worse: readonly Change[];
  readonly key: string;
  readonly says: RegExp;
  /** The file mended as the map says: what was named, by its factor. */
  readonly mended: (factor: number) => readonly Change[];
}

const BATTERY = "at: [-4 mm ± 4 mm, 0 mm, 46 mm ± 3 mm]";
const CASES: readonly Case[] = [
  {
    name: "a battery 40 mm too far in front",
    axis: "pitch",
    worse: [[BATTERY, "at: [36 mm, 0 mm, 46 mm]"]],
    key: "frame",
    says: /^The centre of mass lies 12 mm in front of the rotors' middle: a throttle burst pitches the craft\. .* are safe: move the battery back\.$/,
    // 198 g of 619 g: 37.6 mm back put it in the middle
    mended: (factor) => [[BATTERY, `at: [${36 - (1 - factor) * 37.6} mm, 0 mm, 46 mm]`]],
  },
  {
    name: "a gyro filter at 25 Hz instead of 250",
    axis: "roll",
    worse: [["cutoff: 250 Hz", "cutoff: 25 Hz"]],
    key: "sensing.low_pass",
    says: /^The loop is 29 ms late in all, 9 ms of it by gyro low-pass 25 Hz, order 2\. .* are safe: raise the corner of the gyro's filter\.$/,
    mended: (factor) => [["cutoff: 250 Hz", `cutoff: ${25 / factor} Hz`]],
  },
  {
    name: "rotors that shake the gyro ten times as much",
    axis: "roll",
    worse: [
      ["at_hover: 0.8 deg/s", "at_hover: 8 deg/s"],
      ["at_hover: 0.4 deg/s", "at_hover: 4 deg/s"],
    ],
    key: "sensing.vibration",
    says: /^The rotors shake the gyro by up to 8 deg\/s in hover\. .* are safe: balance the propellers/,
    mended: (factor) => [
      ["at_hover: 0.8 deg/s", `at_hover: ${8 * factor} deg/s`],
      ["at_hover: 0.4 deg/s", `at_hover: ${4 * factor} deg/s`],
    ],
  },
  {
    name: "a gyro forty times as noisy",
    axis: "roll",
    worse: [["noise: 0.01 deg", "noise: 0.4 deg"]],
    key: "sensing.noise",
    says: /^The gyro's noise, 0\.4 deg\/s\/sqrt\(Hz\), shakes the motors through D\. .* are safe: look up/,
    mended: (factor) => [["noise: 0.01 deg", `noise: ${0.4 * factor} deg`]],
  },
];

describe.each(CASES)("$name", ({ name, axis, worse, key, says, mended }) => {
  let axisMap: AxisMap;
  beforeAll(async () => {
    axisMap = (await mapOf(name.replaceAll(" ", "-"), worse)).axes[axis];
  });

  it("leaves no starting tune, and is named as what stands in its way", () => {
    expect(axisMap.start).toBeNull();
    const [likeliest] = axisMap.startCauses ?? [];
    expect(likeliest).toMatchObject({ key, text: expect.stringMatching(says) });
    expect(axisMap.startReason).toContain(likeliest?.text);
    expect(axisMap.startReason).not.toMatch(/grid around|Move the grid/);
  });

  it("is mended as the map says: then there is a safe region and a start", async () => {
    const { factor = 1 } = axisMap.startCauses?.[0] ?? {};
    const better = (await mapOf(`${name.replaceAll(" ", "-")}-mended`, mended(factor))).axes[axis];
    expect(better.start).not.toBeNull();
    expect(better.startCauses).toBeUndefined();
  });
});

describe("a grid that misses safe ground", () => {
  it("is named, and the craft is not blamed", async () => {
    const sweep = readSweep("test/fixtures/causes.yaml");
    const { roll: lines } = sweep.value.grid;
    if (!("p" in lines)) throw new Error("the fixture has lines of its own");
    const far = lines.p.map((gain) => gain + 25 * P_UNIT);
    const grid = { ...sweep.value.grid, roll: { ...lines, p: far } };
    const document = readYaml("sandpiper.yaml", SANDPIPER);
    const plan = planFor({ value: parseAirframe(document), document }, { ...sweep, value: { ...sweep.value, grid } });
    const provenance = { productVersion: "0", command: "", model: "m.yaml", sweep: "s.yaml" };
    const { roll } = (await simulate(plan, { workers: 0, provenance })).map.axes;
    expect(roll.start).toBeNull();
    expect(roll.startCauses).toHaveLength(1);
    expect(roll.startCauses?.[0]).toMatchObject({ key: "grid", text: expect.stringMatching(/the grid misses them/) });
    expect(roll.startCauses?.[0]?.p).toBeLessThan(30);
  });
});

describe("the causes of a map", () => {
  const first = CASES[0] as Case;
  const made = () => mapOf(first.name.replaceAll(" ", "-"), first.worse);

  it("are the same bits whenever they are looked for", async () => {
    const again = await mapOf("once-more", first.worse);
    expect(again.axes.pitch.startCauses).toEqual((await made()).axes.pitch.startCauses);
  });

  it("are read back, and refused where their shape is another", async () => {
    const map = await made();
    const read = (value: unknown) => parseMap({ file: "map.json", data: value, positions: null } as never);
    expect(map.axes.pitch.startCauses?.length).toBeGreaterThan(0);
    expect(() =>
      read({ ...map, axes: { ...map.axes, pitch: { ...map.axes.pitch, startCauses: [{ key: 1 }] } } }),
    ).toThrow();
  });

  it("stand on the page, in the summary and on the card", async () => {
    const map = await made();
    const text = map.axes.pitch.startCauses?.[0]?.text as string;
    const more = { ...(map.axes.pitch.startCauses?.[0] as object), text: "The rotors are slow." } as never;
    const two = {
      ...map,
      axes: { ...map.axes, pitch: { ...map.axes.pitch, startCauses: [...(map.axes.pitch.startCauses ?? []), more] } },
    };
    const page = await renderPage(two);
    expect(page.replaceAll("&#39;", "'")).toContain(text);
    expect(page).toContain("Or: the rotors are slow.");
    expect(renderSummary(two)).toContain(text);
    expect(renderSummary(two)).toContain("\n  Or: the rotors are slow.");
    const none = { ...map, axes: { roll: map.axes.pitch, pitch: map.axes.pitch } };
    const { ladder: _, ...bare } = none;
    expect((await renderCard(bare)).replaceAll("&#39;", "'")).toContain(text);
  });
});
