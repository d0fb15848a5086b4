// Yaw and I as a reader meets them: the finding in words, the strip as a picture, the table, the card and the CSV file.
import { beforeAll, describe, expect, it } from "vitest";
import { stripSvg } from "../../src/charts/strip.js";
import type { StabilityMap } from "../../src/map/format.js";
import type { Strip, YawStrip } from "../../src/map/strip-format.js";
import { renderCard, renderPage, renderStripsCsv, renderSummary } from "../../src/report/index.js";
import { stripFinding, stripRangeWords, stripsOf } from "../../src/words/strip-words.js";
import { stripsMap } from "../fixtures/strips-map.js";

let map: StabilityMap;
let yaw: YawStrip;
beforeAll(async () => {
  ({ map } = await stripsMap());
  if (map.strips?.yaw === undefined) throw new Error("no strip over yaw");
  yaw = map.strips.yaw;
}, 60_000);

const plain = (text: string) =>
  text
    .replace(/<[^>]*>/g, " ")
    .replace(/\s+/g, " ")
    .replace(/&#39;/g, "'");
/** The map with other strips over yaw. */
const withYaw = (change: Partial<YawStrip>): StabilityMap => ({
  ...map,
  strips: { ...map.strips, yaw: { ...yaw, ...change } },
});
const findingOf = (of: StabilityMap) => stripFinding(of, stripsOf(of)[0] as never);

describe("the finding", () => {
  it("names what takes the place of a gain that fails, and why it fails", () => {
    expect(findingOf(map)).toBe(
      `Yaw P ${yaw.choice} instead of the model's 30, at which the gain margin is under 6\u00a0dB`,
    );
  });

  it("of a gain that passes says what is met above it", () => {
    const passes = withYaw({ declared: yaw.choice as number });
    expect(findingOf(passes)).toMatch(/^Yaw P [\d.]+ passes; above 24\.\d the gain margin is under 6\u00a0dB$/);
  });

  it("says so where none passes", () => {
    expect(findingOf(withYaw({ choice: null, range: null }))).toMatch(
      /^No Yaw P of the strip passes: at the model's own the gain margin/,
    );
  });

  it("is in the controller's own numbers where the model says what one is worth", () => {
    expect(findingOf(withYaw({ oneUnit: 0.2 }))).toContain("instead of the model's 150");
  });

  it("has both ends with the trial or theory that found them", () => {
    const words = stripRangeWords(map, stripsOf(map)[0] as never);
    expect(words).toMatch(
      /below [\d.]+ a turn takes over 600\u00a0ms to settle \(hard stop from a turn at 300\u00a0°\/s, .* throttle, fresh pack\)/,
    );
    expect(words).toMatch(/above 24\.\d the gain margin is under 6\u00a0dB \(theory at /);
  });
});

describe("the picture", () => {
  const grounds = (svg: string) =>
    [...svg.matchAll(/<rect x="([\d.]+)" y="24" width="([\d.]+)" height="34" fill="var\(--([\w-]+)\)"/g)].map(
      ([, x, width, role]) => ({ from: Number(x), to: Number(x) + Number(width), role }),
    );

  it("is covered by grounds without a gap, each of what fails there", () => {
    const found = grounds(stripSvg(yaw));
    expect(found.map(({ role }) => role)).toEqual(["ringing", "safe", "avoid", "sustained"]);
    found.slice(1).forEach(({ from }, k) => {
      expect(Math.abs(from - (found[k]?.to ?? 0))).toBeLessThan(0.11);
    });
    expect([found[0]?.from, Math.round(found.at(-1)?.to ?? 0)]).toEqual([9, 331]);
  });

  it("places gains by factors: the ends of the range lie where their logarithms do", () => {
    const [, safe] = grounds(stripSvg(yaw));
    const [first = 1, last = 1] = [yaw.gains[0], yaw.gains.at(-1)];
    const x = (gain: number) => 9 + (322 * Math.log(gain / first)) / Math.log(last / first);
    expect(Math.abs((safe?.from ?? 0) - x(yaw.range?.from ?? 0))).toBeLessThan(0.11);
    expect(Math.abs((safe?.to ?? 0) - x(yaw.range?.to ?? 0))).toBeLessThan(0.11);
  });

  it("names a ground beside the mark that crosses it, and not where it would not fit", () => {
    const svg = stripSvg(yaw);
    expect(svg).toContain(">passes<");
    expect(svg).not.toContain(">oscillates<");
  });

  it("draws a strip of any gains, the one at none included", () => {
    const strip = map.strips?.i?.roll as Strip;
    for (const fails of [
      strip.fails,
      strip.fails.map(() => null),
      strip.fails.map(() => ({ limit: "drift", decidedBy: null })),
    ])
      expect(stripSvg({ ...strip, fails, range: null, choice: null })).not.toMatch(/NaN|Infinity|undefined/);
  });
});

describe("page, card and summary", () => {
  it("show the findings under the map and where to start", async () => {
    const page = await renderPage(map);
    const text = plain(page);
    expect(text).toContain("Yaw and I One gain along a line");
    expect(text.split(`Yaw P ${yaw.choice} instead of the model's 30`).length - 1).toBeGreaterThanOrEqual(2);
    expect(page).toContain('<a href="#strips">');
    expect(renderSummary(map)).toContain(`Yaw P ${yaw.choice} instead of the model's 30`);
  });

  it("have no such chapter where the sweep asked for none", async () => {
    const { strips: _, ...bare } = map;
    expect(await renderPage(bare)).not.toContain('id="strips"');
    expect(plain(await renderCard(bare))).toContain("yaw stays at P 30 % per 100 °/s");
  });

  it("have I with its room and yaw as judged on the card", async () => {
    expect(plain(await renderPage(map))).toMatch(/I 20 % per 100° room: 7\.\d+ to \d+/);
    expect(plain(await renderCard(map))).toContain(
      `yaw P ${yaw.choice} instead of the model file's 30, which fails; yaw I 30`,
    );
    const passing = withYaw({ choice: yaw.declared });
    expect(plain(await renderCard(passing))).toContain("yaw P 30, judged to pass, and I 30 as in the model file.");
  });
});

describe("strips.csv", () => {
  it("has a row per strip and gain, with what each gain fails by", () => {
    const [header = "", ...rows] = renderStripsCsv(map).trim().split("\n");
    expect(rows).toHaveLength(stripsOf(map).reduce((sum, { strip }) => sum + strip.gains.length, 0));
    expect(header.split(",").slice(0, 8)).toEqual([
      "Gain",
      "Value",
      "Unit",
      "On the controller",
      "Model's own",
      "Chosen",
      "Passes",
      "Fails by",
    ]);
    const own = rows.find((row) => row.startsWith("Yaw P,30,"))?.split(",") ?? [];
    expect(own.slice(4, 8)).toEqual(["yes", "no", "no", "gain margin"]);
    expect(rows.filter((row) => row.split(",")[5] === "yes")).toHaveLength(3);
  });
});
