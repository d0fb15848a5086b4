// How the pages are for everybody: with scripts off, on paper, for assistive technology, and that they still look as
// they did. The map is an invented one, so that no change of the physics changes a picture.
import type { Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import { pageScript } from "../../src/flow/page-script.js";
import { renderCard, renderPage } from "../../src/report/index.js";
import { smallMap, smallPage } from "../fixtures/report-map.js";
import { withoutStart } from "../report/fixture.js";
import { climbing } from "../report/ladder-fixture.js";
import { findings, OF_COLOURS, RULES } from "./axe.js";
import { browserForTests, describeInChromium } from "./browser.js";
import { expectPicture } from "./pictures.js";

const map = climbing();
let text = "";
let card = "";
beforeAll(async () => {
  text = await renderPage(map, pageScript());
  card = await renderCard(map);
});

describeInChromium("a page without scripts", () => {
  const { open } = browserForTests();

  it("says what scripts would add, and hides what needs them", async () => {
    const { page } = await open(await smallPage(await smallMap()), { javaScriptEnabled: false });
    expect(await page.locator("#trial").isVisible()).toBe(false);
    expect(await page.getByText("With scripts on, any point of the map can be simulated here").isVisible()).toBe(true);
  });

  it("shows every picture and no control that would do nothing", async () => {
    const { page, complaints } = await open(text, { javaScriptEnabled: false });
    expect(await page.locator(".pictures figure").count()).toBe(12);
    expect(await page.locator(".pictures").isVisible()).toBe(true);
    expect(await page.locator("button:visible, input:visible, select:visible").count()).toBe(0);
    expect(await page.locator(".axis-map svg:visible").count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it("never scrolls sideways, from a phone to a wall screen", async () => {
    const { page } = await open(text);
    for (const width of [320, 390, 768, 1280, 2560]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
  });
});

describeInChromium("the printed pages", () => {
  const { open } = browserForTests();
  // Chromium writes the objects of a page tree in plain text.
  const pages = async (page: Page, format: string) =>
    (await page.pdf({ format })).toString("latin1").match(/\/Type \/Page\b(?!s)/g)?.length;

  it.each(["A4", "Letter"])("the card takes two sheets of %s", async (format) => {
    const { page } = await open(card);
    expect(await pages(page, format)).toBe(2);
  });

  it.each(["A4", "Letter"])("a real card fills two sheets of %s, its first four steps on the first", async (format) => {
    const { page } = await open(await renderCard((await smallMap()).map));
    expect(await pages(page, format)).toBe(2);
    // A sheet less its margins, in CSS px.
    const [width, height] = format === "A4" ? [188, 281] : [193.9, 263.4];
    await page.setViewportSize({ width: Math.floor((width * 96) / 25.4), height: 900 });
    await page.emulateMedia({ media: "print" });
    const bottoms = await page
      .locator(".flight")
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().bottom));
    const [fourth, fifth] = [bottoms[3] ?? 0, bottoms[4] ?? 0];
    expect(fourth).toBeLessThan((height * 96) / 25.4);
    expect(fifth).toBeGreaterThan((height * 96) / 25.4);
    // To be compared at arm's length; they were 28 mm once. Ours, no source.
    const widths = await page
      .locator(".climb-p .trace")
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().width));
    expect(Math.min(...widths)).toBeGreaterThan((44 * 96) / 25.4);
  });

  it("a card of one axis on a stand, or one that says not to fly, takes no more", async () => {
    const [alone, none] = [
      withoutStart(map, "pitch", "It rings."),
      withoutStart(withoutStart(map, "pitch", "It rings."), "roll", "So does this."),
    ];
    const steps = (map.ladder?.steps ?? []).map(({ axes: { roll }, ...step }) => ({
      ...step,
      axes: roll ? { roll } : {},
    }));
    const rollAlone = { ...alone, ladder: { manoeuvres: map.ladder?.manoeuvres ?? [], steps } };
    const half = await open(await renderCard(rollAlone, { testStand: "roll" }));
    expect(await pages(half.page, "A4")).toBe(2);
    const grounded = await open(await renderCard(rollAlone));
    expect(await pages(grounded.page, "A4")).toBe(1);
    // To be read across a bench. Ours, no source.
    const { height } = await grounded.page.getByRole("heading", { name: "Do not fly" }).evaluate((one) => ({
      height: Number.parseFloat(getComputedStyle(one).fontSize),
    }));
    expect(height).toBeGreaterThan((15 * 96) / 25.4);
    const { ladder: _, ...bare } = none;
    const empty = await open(await renderCard(bare));
    expect(await pages(empty.page, "A4")).toBe(1);
  });

  it("the report prints its pictures and its ladder, and none of its controls", async () => {
    const { page } = await open(text);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("button:visible, input:visible, select:visible, .over:visible").count()).toBe(0);
    expect(await page.locator(".pictures").isVisible()).toBe(true);
    expect(await page.locator(".rung-body:visible").count()).toBe(10);
    expect(await pages(page, "A4")).toBeLessThan(16);
  });
});

describeInChromium("the card on a phone", () => {
  const { open } = browserForTests();

  it.each([320, 390])("never scrolls sideways at %i px", async (width) => {
    const { page } = await open(await renderCard((await smallMap()).map), { viewport: { width, height: 844 } });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
});

describeInChromium("for assistive technology", () => {
  const { open } = browserForTests();
  it.each([
    ["by day", { colorScheme: "light" }, RULES],
    ["by night", { colorScheme: "dark" }, OF_COLOURS],
    ["on a phone", { viewport: { width: 390, height: 844 } }, RULES],
  ] as const)("axe finds nothing %s, the maps asleep or awake", async (_, options, rules) => {
    const { page } = await open(text, { ...options, bypassCSP: true });
    expect(await findings(page, [...rules])).toEqual([]);
    await page.getByRole("radio", { name: "Settling time" }).check();
    expect(await findings(page, [...rules])).toEqual([]);
  });

  it("axe finds nothing on the card", async () => {
    const { page } = await open(card, { bypassCSP: true });
    expect(await findings(page)).toEqual([]);
  });

  // WCAG 2.2, 2.5.8: 24 px, quoted in public material.
  it("every control is large enough to be hit", async () => {
    const { page } = await open(text, { viewport: { width: 390, height: 844 } });
    const small = await page
      .locator("button:visible, select:visible, .switch label:visible, #trial-form label:visible")
      .evaluateAll((all) =>
        all.flatMap((one) => {
          const { width, height } = one.getBoundingClientRect();
          return width < 24 || height < 24 ? [one.outerHTML.slice(0, 80)] : [];
        }),
      );
    expect(small).toEqual([]);
  });
});

describeInChromium("the look", () => {
  const { open, blank } = browserForTests();

  it.each([
    ["map-by-day", "#map-roll", { viewport: { width: 390, height: 844 } }],
    ["start-by-night", ".tune", { colorScheme: "dark", viewport: { width: 900, height: 700 } }],
    ["ladder-on-a-phone", ".rung", { viewport: { width: 390, height: 844 } }],
  ] as const)("of %s is what it was", async (name, selector, options) => {
    const { page } = await open(text, { ...options, javaScriptEnabled: false });
    await expectPicture(await blank(), name, await page.locator(selector).first().screenshot());
  });

  it("of a measure with its contours, drawn by the page's script, is what it was", async () => {
    const { page } = await open(text, { viewport: { width: 390, height: 844 } });
    await page.getByRole("radio", { name: "Bounce-back" }).check();
    await expectPicture(await blank(), "measure-live", await page.locator("#map-roll .narrow").screenshot());
  });

  it("of the card is what it was", async () => {
    const { page } = await open(card, { viewport: { width: 900, height: 700 } });
    await expectPicture(await blank(), "card", await page.locator(".flight").first().screenshot());
  });
});
