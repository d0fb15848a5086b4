// The page of a fit in a real browser: at every width, on paper, by night, for assistive technology.
import { beforeAll, expect, it } from "vitest";
import { fitPage } from "../../src/report/index.js";
import { endingFit } from "../report/fit/fixture.js";
import { findings, OF_COLOURS, RULES } from "./axe.js";
import { browserForTests, describeInChromium } from "./browser.js";

let text = "";
beforeAll(async () => {
  text = await fitPage(await endingFit());
}, 240_000);

describeInChromium("the page of a fit", () => {
  const { open } = browserForTests();

  it("opens from disk without a complaint, scripts off", async () => {
    const { page, complaints } = await open(text, { javaScriptEnabled: false });
    expect(await page.locator("figure svg:visible").count()).toBe(2 + 6 + 2);
    expect(complaints).toEqual([]);
  });

  it("never scrolls sideways, from a phone to a wall screen", async () => {
    const { page } = await open(text);
    for (const width of [320, 390, 768, 1280, 2560]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
  });

  it("gives its answer on the first screen, of a phone too", async () => {
    for (const viewport of [
      { width: 390, height: 844 },
      { width: 1280, height: 900 },
    ]) {
      const { page } = await open(text, { viewport });
      const box = await page.locator(".answer").boundingBox();
      expect((box?.y ?? 9999) + (box?.height ?? 0)).toBeLessThan(viewport.height);
      expect(await page.locator(".strip").first().isVisible()).toBe(true);
    }
  });

  it("shows where the tune stands as wide as its panel, on a phone too", async () => {
    const { page } = await open(text, { viewport: { width: 390, height: 844 } });
    const box = await page.locator(".strip").first().boundingBox();
    expect(box?.width ?? 0).toBeGreaterThan(290);
  });

  it.each([
    ["by day", { colorScheme: "light" }, RULES],
    ["by night", { colorScheme: "dark" }, OF_COLOURS],
    ["on a phone", { viewport: { width: 390, height: 844 } }, RULES],
  ] as const)("axe finds nothing %s", async (_, options, rules) => {
    const { page } = await open(text, { ...options, bypassCSP: true });
    expect(await findings(page, rules)).toEqual([]);
  });

  it("prints its pictures on a few sheets, whole", async () => {
    const { page } = await open(text);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("figure svg:visible").count()).toBe(2 + 6 + 2);
    const pdf = (await page.pdf({ format: "A4" })).toString("latin1");
    expect(pdf.match(/\/Type \/Page\b(?!s)/g)?.length).toBeLessThanOrEqual(7);
  });
});
