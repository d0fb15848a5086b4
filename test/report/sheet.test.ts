// The sheet on the page and in the summary: computed from the model that the map carries, left out where it is not whole.
import { describe, expect, it } from "vitest";
import type { StabilityMap } from "../../src/map/format.js";
import { modelSheet } from "../../src/map/model-sheet.js";
import { renderPage, renderSummary } from "../../src/report/index.js";
import { sheetOf } from "../../src/sheet/sheet.js";
import { tinyMap } from "../run/tiny-map.js";
import { tinyPlan } from "../run/tiny-plan.js";
import { fixture } from "./fixture.js";

const map = await tinyMap();
const withModel = (change: (model: Record<string, never>) => object): StabilityMap => ({
  ...map,
  model: { ...(map.model as object), ...change(map.model as Record<string, never>) },
});
/** The bell a thousand times as heavy as it was. */
const doubtful = withModel(({ motor }) => ({ motor: { ...(motor as object), bellInertia: 2.6e-3 } }));

describe("the sheet of a map", () => {
  it("is that of its model", () => {
    expect(modelSheet(map)).toEqual(sheetOf(tinyPlan().airframe));
  });

  it.each<readonly [string, StabilityMap]>([
    ["of an older model", withModel(() => ({ format: "gainscape.resolved-model/0" }))],
    ["of a model without its motor", withModel(() => ({ motor: undefined }))],
    ["of one too heavy to hover", withModel(() => ({ mass: 90 }))],
    [
      "of one with a filter beyond its loop",
      withModel(({ sensing }) => ({
        sensing: { ...(sensing as object), lowPass: [{ order: 2, cutoff: 15000 }] },
      })),
    ],
  ])("is left out %s, and so are its chapter and its place in the contents", async (_, other) => {
    expect(modelSheet(other)).toBeNull();
    expect(await renderPage(other)).not.toContain('"sheet"');
  });

  it("stands on the page with its numbers", async () => {
    const page = (await renderPage(map)).replaceAll("\u00a0", " ");
    const sheet = sheetOf(tinyPlan().airframe);
    expect(page).toContain('<a href="#sheet">Sheet</a>');
    expect(page).toContain('<h2 id="sheet">Sheet of the model</h2>');
    expect(page).toContain("Nothing in the model looks unlikely.");
    expect(page).toContain(`<dt>Mass</dt><dd>${Number((1000 * sheet.massKg).toPrecision(3))} g</dd>`);
    expect(page).toContain(
      `<th scope="row">Motor lag, ms</th><td>${Number(sheet.hover.motorLagMs.toPrecision(3))}</td>`,
    );
    expect(page).not.toContain("Before you believe this map");
  });

  it("brings what looks unlikely onto the first screen, and into the summary", async () => {
    const page = (await renderPage(doubtful)).replaceAll("\u00a0", " ");
    expect(page.indexOf("Before you believe this map")).toBeGreaterThan(0);
    expect(page.indexOf("Before you believe this map")).toBeLessThan(page.indexOf('id="cautions"'));
    expect(page).toContain("<code>motor.bell_inertia</code>: 2.6e-3 kg m^2 is");
    expect(renderSummary(doubtful)).toContain("motor.bell_inertia: 2.6e-3 kg m^2 is");
    expect(renderSummary(map)).not.toContain("unlikely");
  });

  it("is not drawn of an invented map without a model", async () => {
    expect(await renderPage(fixture(6))).not.toContain('"sheet"');
  });
});
