// Any map is drawn: thousands of them, values exactly on a level included, every figure of a report and what the page
// draws over it. The engine that turns layers into SVG is left out here, and at work in random-pages.
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { axisMapSvg } from "../../src/charts/axis-map.js";
import { locatorSvg } from "../../src/charts/locator.js";
import { manoeuvreLinesSvg } from "../../src/charts/manoeuvre-lines.js";
import { measureMapSvg } from "../../src/charts/measure-map.js";
import { reliefSvg } from "../../src/charts/relief.js";
import { throttleLines, throttleLinesSvg } from "../../src/charts/throttle-lines.js";
import { compare } from "../../src/flow/compare.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { measureGround, verdictGround } from "../../src/page/map/ground.js";
import { drawTuneMarks } from "../../src/page/map/tune-marks.js";
import { pageMapOf } from "../../src/page/page-map.js";
import { pageData } from "../../src/page-data/data.js";
import {
  renderCard,
  renderComparison,
  renderCsv,
  renderDriftMarkdown,
  renderDriftTable,
  renderJunit,
  renderPage,
  renderSummary,
} from "../../src/report/index.js";
import { AXES, type Axis } from "../../src/words/axes.js";
import { tinyMap } from "../run/tiny-map.js";
import { tried, triedSlowly } from "./cases.js";
import { randomMap, type Seeds, seeds } from "./random/map.js";
import { expectPath, expectSound } from "./random/sound.js";

vi.mock("../../src/charts/vega-svg.js", async () => ({
  vegaSvg: (await import("./random/plain-engine.js")).plainSvg,
}));

const base = await tinyMap();

/** As much of a document as the page's drawing asks for. */
class Part {
  readonly attributes: Record<string, string> = {};
  constructor(readonly tag: string) {}
  setAttribute(name: string, value: string): void {
    this.attributes[name] = value;
  }
  append(): void {}
}

beforeAll(() => vi.stubGlobal("document", { createElementNS: (_: string, tag: string) => new Part(tag) }));
afterAll(() => void vi.unstubAllGlobals());

/** Every figure of one axis; of the measures' maps one, another for the next map. */
async function figures(map: StabilityMap, name: Axis, turn: number): Promise<string[]> {
  const id = MEASURE_IDS[turn % MEASURE_IDS.length] ?? "overshoot";
  const size = { width: 140, height: 120, letters: 9 };
  return Promise.all([
    axisMapSvg(map, name, size),
    locatorSvg(map, name),
    measureMapSvg(map, name, id),
    manoeuvreLinesSvg(map, name, size),
    ...throttleLines(map.axes[name]).map((lines) => throttleLinesSvg(map, name, lines)),
    reliefSvg(map, name),
  ]);
}

/** What the page draws over the map of one axis. */
function overlays(map: StabilityMap, name: Axis, turn: number): Part[] {
  const pageMap = pageMapOf(JSON.parse(JSON.stringify(pageData(map))));
  const { d, p } = pageMap.axes.roll.grid;
  const ends = (line: readonly number[]) => [line[0] as number, line.at(-1) as number] as const;
  const frame = { width: 140, height: 120, d: ends(d), p: ends(p) };
  const id = MEASURE_IDS[turn % MEASURE_IDS.length] ?? "overshoot";
  const level = { throttle: 35, duty: 35, condition: "full", variants: [] };
  const [axis, tunes] = [pageMap.axes[name], pageMap.tunes[name]];
  return [
    ...measureGround(frame, pageMap, axis, Object.values(pageMap.axes), id),
    ...verdictGround(frame, pageMap, axis, tunes, level),
    ...drawTuneMarks(frame, tunes),
  ] as unknown as Part[];
}

async function drawn(from: Seeds): Promise<void> {
  const map = randomMap(base, from);
  const name = AXES[from.values % 2] as Axis;
  for (const figure of await figures(map, name, from.values)) expectSound(figure);
  if (from.values % 4 > 1) return; // the page draws with the same geometry
  for (const { tag, attributes } of overlays(map, name, from.values)) {
    expectSound(JSON.stringify(attributes));
    if (tag === "path") expectPath(attributes.d);
  }
}

describe("random maps", () => {
  it("are maps as the reader takes them", () => {
    const read = (data: unknown) => parseMap({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });
    tried(0.05, seeds, (from) => {
      const text = JSON.stringify(randomMap(base, from));
      expect(read(JSON.parse(text))).toEqual(JSON.parse(text));
    });
  });

  it("are drawn", () => triedSlowly(2, seeds, drawn));

  it("come out as whole pages", () =>
    triedSlowly(0.02, seeds, async (from) => {
      const map = randomMap(base, from);
      for (const page of [await renderPage(map), await renderCard(map)]) expectSound(page);
      for (const text of [renderCsv(map), renderSummary(map)]) expect(text).not.toMatch(/NaN|Infinity|undefined/);
    }));

  it("are compared, two of one question", () =>
    triedSlowly(0.02, fc.tuple(seeds, fc.nat(9_999_999)), async ([from, values]) => {
      const [before, after] = [randomMap(base, from), randomMap(base, { ...from, values })];
      const comparison = compare({ name: "a", map: before }, { name: "b", map: after }, { command: "c" });
      expectSound(await renderComparison(comparison));
      const { drift } = comparison;
      for (const text of [renderDriftTable(drift), renderDriftMarkdown(drift), renderJunit([drift])])
        expect(text).not.toMatch(/NaN|Infinity|undefined/);
    }));
});
