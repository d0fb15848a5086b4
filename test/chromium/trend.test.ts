// The page of a trend in a real browser: at every width, by night, for assistive technology.
import { beforeAll, expect, it } from "vitest";
import { renderTrendPage } from "../../src/report/index.js";
import { trendsOf } from "../../src/trend/follow.js";
import { record } from "../trend/records.js";
import { findings, OF_COLOURS, RULES } from "./axe.js";
import { browserForTests, describeInChromium } from "./browser.js";

let text = "";
beforeAll(async () => {
  const records = [
    record(),
    record({ version: "r2", date: "2026-02-01", boundary: [25, 30, 50] }),
    record({ version: "r3", date: "2026-03-01", boundary: [30, "above", 50] }),
  ];
  text = await renderTrendPage({
    trends: trendsOf(records),
    files: ["a.jsonl"],
    problems: [],
    command: "gainscape trend a",
  });
});

describeInChromium("the page of a trend", () => {
  const { open } = browserForTests();

  it("opens from disk without a complaint, scripts off", async () => {
    const { page, complaints } = await open(text, { javaScriptEnabled: false });
    expect(await page.locator("figure svg:visible").count()).toBe(14);
    expect(complaints).toEqual([]);
  });

  it("never scrolls sideways, from a phone to a wall screen", async () => {
    const { page } = await open(text);
    for (const width of [320, 390, 768, 1280, 2560]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
  });

  it("says what moved on the first screen, of a phone too", async () => {
    for (const viewport of [
      { width: 390, height: 844 },
      { width: 1280, height: 900 },
    ]) {
      const { page } = await open(text, { viewport });
      const box = await page.locator(".steps tbody tr").first().boundingBox();
      expect((box?.y ?? 9999) + (box?.height ?? 0)).toBeLessThan(viewport.height);
    }
  });

  it.each([
    ["by day", { colorScheme: "light" }, RULES],
    ["by night", { colorScheme: "dark" }, OF_COLOURS],
    ["on a phone", { viewport: { width: 390, height: 844 } }, RULES],
  ] as const)("axe finds nothing %s", async (_, options, rules) => {
    const { page } = await open(text, { ...options, bypassCSP: true });
    expect(await findings(page, rules)).toEqual([]);
  });
});
