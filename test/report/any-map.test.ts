import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { VERDICTS, type Verdict } from "../../src/base/measures.js";
import { axisMapSvg } from "../../src/charts/axis-map.js";
import { locatorSvg } from "../../src/charts/locator.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { renderCsv, renderPage, renderSummary } from "../../src/report/index.js";
import { fixture } from "./fixture.js";

const SIDE = 6;
const base = fixture(SIDE);
const size = { width: 300, height: 260, letters: 14 };

/** Any verdicts and any safe points, however torn; boundaries and margins as they come. */
const torn: fc.Arbitrary<StabilityMap> = fc
  .record({
    verdict: fc.array(fc.array(fc.constantFrom<Verdict>(...VERDICTS), { minLength: SIDE, maxLength: SIDE }), {
      minLength: SIDE,
      maxLength: SIDE,
    }),
    safe: fc.array(fc.array(fc.boolean(), { minLength: SIDE, maxLength: SIDE }), { minLength: SIDE, maxLength: SIDE }),
    margin: fc.constantFrom(null, 0, 3, 6, 40),
    start: fc.boolean(),
  })
  .map(({ verdict, safe, margin, start }) => {
    const gainUp = verdict.map((row) => row.map(() => margin));
    const roll: AxisMap = { ...base.axes.roll, verdict, safe, margins: { ...base.axes.roll.margins, gainUp } };
    return { ...base, axes: { ...base.axes, roll: start ? roll : { ...roll, start: null, startReason: "none" } } };
  });

describe("any map at all", () => {
  it("is drawn without a number that is none", async () => {
    await fc.assert(
      fc.asyncProperty(torn, async (map) => {
        const drawn = (await axisMapSvg(map, "roll", size)) + (await locatorSvg(map, "roll"));
        expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { seed: 7, numRuns: 25 },
    );
  });

  it("of one verdict, or with nothing measured, still makes page, table and summary", async () => {
    for (const verdict of VERDICTS) {
      const bare: AxisMap = {
        ...base.axes.pitch,
        verdict: base.axes.pitch.verdict.map((row) => row.map(() => verdict)),
        boundary: { sustained: [], byVariant: [], overshoot: [], settling: [] },
        start: null,
        startReason: null,
      };
      const map = { ...base, axes: { roll: bare, pitch: bare }, variants: [], assumptions: [], hover: {} };
      for (const text of [await renderPage(map), renderCsv(map), renderSummary(map)])
        expect(text).not.toMatch(/NaN|Infinity|undefined|\[object/);
    }
  });
});
