// The page of what each change does in a real browser: at every width, by night, for assistive technology.
import { beforeAll, expect, it } from "vitest";
import type { Effects } from "../../src/compare/effect-format.js";
import { renderEffects } from "../../src/report/index.js";
import { findingWords } from "../../src/words/finding-words.js";
import { changesMap } from "../fixtures/changes-map.js";
import { findings, OF_COLOURS, RULES } from "./axe.js";
import { browserForTests, describeInChromium } from "./browser.js";

let effects: Effects;
let text = "";
beforeAll(async () => {
  const { asItIs, changed } = await changesMap();
  effects = changed.effects;
  text = await renderEffects(effects, asItIs);
}, 60_000);

describeInChromium("the page of what each change does", () => {
  const { open } = browserForTests();

  it("opens from disk without a complaint, scripts off, with a map per change and axis", async () => {
    const { page, complaints } = await open(text, { javaScriptEnabled: false });
    const mapped = effects.effects.filter(({ found }) => found !== null).length;
    expect(mapped).toBeGreaterThan(1);
    expect(await page.locator("figure.effect svg:visible").count()).toBe(2 * mapped);
    expect(await page.locator("figure.axis-map svg:visible").count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it("lists the findings first, the largest gain first, each on the first screen of a desk", async () => {
    const { page } = await open(text, { viewport: { width: 1280, height: 900 } });
    const lines = await page.locator("#findings ~ ol > li").allTextContents();
    const plain = (words: string) => words.replaceAll("\u00a0", " ");
    expect(lines.map(plain)).toEqual(effects.effects.map((effect) => plain(findingWords(effect))));
    const box = await page.locator("#findings ~ ol > li").last().boundingBox();
    expect((box?.y ?? 9999) + (box?.height ?? 0)).toBeLessThan(900);
  });

  it("leads from each chapter's link to its heading", async () => {
    const { page } = await open(text);
    const targets = await page.locator("nav a").evaluateAll((links) => links.map((link) => link.getAttribute("href")));
    expect(targets.length).toBeGreaterThan(3);
    for (const target of targets) expect([target, await page.locator(`h2${target}`).count()]).toEqual([target, 1]);
  });

  it("never scrolls sideways, from a phone to a wall screen", async () => {
    const { page } = await open(text);
    for (const width of [320, 390, 768, 1280, 2560]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
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
