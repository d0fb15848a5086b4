// "See and hear" with a draw chosen over the maps, in a real browser: the trials are that draw's.
import { beforeAll, expect, it } from "vitest";
import { pageKernels, pageScript } from "../../src/flow/page-script.js";
import type { StabilityMap } from "../../src/map/format.js";
import { renderPage } from "../../src/report/index.js";
import { drawnMap } from "../fixtures/drawn-map.js";
import { browserForTests, describeInChromium } from "./browser.js";
import { plain, toTrials, trialsListed } from "./small-page.js";

describeInChromium("the trials of a draw", () => {
  const { open } = browserForTests();
  let map: StabilityMap;
  let text = "";
  beforeAll(async () => {
    map = await drawnMap();
    text = await renderPage(map, pageScript(), pageKernels(map));
  }, 300_000);

  const written = "The starting tune: no trial of it passes a limit.";

  it("take the place of the model's, and leave again", async () => {
    const { page, complaints } = await open(text);
    await toTrials(page);
    expect(await plain(page, "#trial-words")).toContain(written);
    const before = await page.locator("#trial-list .why").allTextContents();
    const byMeasure = map.uncertainty?.draws.findIndex(({ roll }) => {
      const by = roll.startFailsBy;
      return by !== null && by !== "margins" && !/oscillation/.test(by);
    });
    const draw = byMeasure === undefined || byMeasure < 0 ? 5 : byMeasure;
    await page.locator("#draw-shown").selectOption(String(draw));
    await trialsListed(page);
    const words = await plain(page, "#trial-words");
    expect(words).toContain(`, draw ${draw + 1}: `);
    expect(words).toContain(`The craft is draw ${draw + 1};`);
    expect(await page.locator("#trial-list .why").allTextContents()).not.toEqual(before);
    if (byMeasure === draw) {
      expect(words).toContain("Of its starting tune the map says: Roll fails by ");
      expect(await plain(page, "#trial-list-words")).toMatch(/do(es)? not die out|pass(es)? a limit/);
    }
    await page.locator("#draw-shown").selectOption("");
    await page.waitForFunction(
      (expected) => document.getElementById("trial-words")?.textContent?.includes(expected),
      written,
    );
    await trialsListed(page);
    expect(await page.locator("#trial-list .why").allTextContents()).toEqual(before);
    expect(complaints).toEqual([]);
  });

  it("are not promised where the map holds too little of its draws", async () => {
    const { numbers: _, ...uncertainty } = map.uncertainty as NonNullable<StabilityMap["uncertainty"]>;
    const { page, complaints } = await open(await renderPage({ ...map, uncertainty }, pageScript()));
    await page.locator("#draw-shown").selectOption("3");
    await toTrials(page);
    expect(await plain(page, "#trial-words")).toContain("Draw 4 cannot be simulated here");
    expect(complaints).toEqual([]);
  });
});
