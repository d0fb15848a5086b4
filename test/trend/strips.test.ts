// Yaw's P and I followed: the gain to take and how far up gains pass, from record to words.
import { describe, expect, it } from "vitest";
import { baselineOf, mapOfBaseline } from "../../src/compare/baseline.js";
import { renderTrendPage, renderTrendText } from "../../src/report/index.js";
import { trendsOf } from "../../src/trend/follow.js";
import type { StripRecord } from "../../src/trend/format.js";
import { recordOf } from "../../src/trend/record.js";
import { recordShape } from "../../src/trend/shape.js";
import type { Trend } from "../../src/trend/trend.js";
import { followedAxes, movedWords } from "../../src/words/trend-words.js";
import { stripsMap } from "../fixtures/strips-map.js";
import { record } from "./records.js";

const strip: StripRecord = { asked: "one", choice: 30, to: 60 };
const trendOf = (before: StripRecord | undefined, after: StripRecord | undefined): Trend => {
  const of = (yaw: StripRecord | undefined) => (yaw === undefined ? {} : { yaw, roll: { i: yaw } });
  const records = [record(of(before)), record({ version: "r2", date: "2026-02-01", ...of(after) })];
  return trendsOf(records)[0] as Trend;
};
const said = (trend: Trend, axis: "yaw" | "roll") =>
  trend.steps.flatMap((step) =>
    movedWords(trend, step, axis).map(({ text, better }) => [text.replaceAll("\u00a0", " "), better]),
  );

describe("a strip in two records", () => {
  it("steps where the gain to take or the upper end moves beyond the tolerance", () => {
    const trend = trendOf(strip, { ...strip, choice: 24, to: 45 });
    expect(said(trend, "yaw")).toEqual([
      ["P to take falls 20 %", null],
      ["upper end of P that passes falls 25 %", false],
    ]);
    expect(said(trend, "roll")).toEqual([
      ["I to take falls 20 %", null],
      ["upper end of I that passes falls 25 %", false],
    ]);
    expect(said(trendOf(strip, { ...strip, to: 60.5 }), "yaw")).toEqual([]);
  });

  it("is the worse where nothing passes any more, and the better where something does again", () => {
    const none: StripRecord = { ...strip, choice: null, to: "none" };
    expect(said(trendOf(strip, none), "yaw")).toEqual([
      ["P to take vanishes, no gain passes any more", false],
      ["upper end of P that passes vanishes, no gain passes any more", false],
    ]);
    expect(said(trendOf(none, strip), "yaw").map(([, better]) => better)).toEqual([true, true]);
    expect(said(trendOf(strip, { ...strip, to: "above" }), "yaw")).toEqual([
      ["upper end of P that passes rises", true],
    ]);
  });

  it("is not compared with one of other limits or scripts, or with none", () => {
    expect(said(trendOf(strip, { asked: "another", choice: 3, to: 6 }), "yaw")).toEqual([]);
    expect(said(trendOf(undefined, strip), "yaw")).toEqual([]);
  });

  it("has charts and lines of its own, and yaw none where no map judged it", async () => {
    const trend = trendOf(strip, { ...strip, to: 45 });
    const page = { files: [], problems: [], command: "gainscape trend" };
    const shown = await renderTrendPage({ ...page, trends: [trend] });
    expect(shown).toContain('<h2 id="yaw-0">Yaw</h2>');
    expect(shown).toContain("<h3>Upper end of P that passes</h3>");
    expect(renderTrendText(trend).replaceAll("\u00a0", " ")).toContain(
      "    Yaw: upper end of P that passes falls 25 %\n",
    );
    const bare = trendOf(undefined, undefined);
    expect(followedAxes(bare)).toEqual(["roll", "pitch"]);
    expect(await renderTrendPage({ ...page, trends: [bare] })).not.toContain('id="yaw-0"');
  });
});

describe("the record of a map with strips", () => {
  it("holds the gain to take and the upper end, from a baseline as well, and is read back", async () => {
    const { map } = await stripsMap();
    const { yaw, i } = map.strips ?? {};
    const made = recordOf(map, "2026-01-01");
    const end = ({ range }: NonNullable<typeof yaw>) => (range?.above === null ? "above" : range?.to);
    expect(made.yaw?.choice).toBeCloseTo(yaw?.choice ?? 0, 3);
    expect(made.yaw?.to).toBeCloseTo(Number(yaw === undefined ? 0 : end(yaw)), 2);
    expect(made.axes.roll.i?.choice).toBeCloseTo(i?.roll?.choice ?? 0, 3);
    expect(made.axes.roll.i?.asked).not.toBe(made.yaw?.asked);
    expect(recordShape.parse(made)).toEqual(made);
    expect(recordOf(mapOfBaseline(baselineOf(map)), "2026-01-01")).toEqual(made);
    const { strips: _, ...bare } = map;
    expect(recordOf(bare, "2026-01-01").yaw).toBe(undefined);
  }, 60_000);
});
