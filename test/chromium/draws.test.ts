// The control that shows one draw over the maps, in a real browser: with keys alone, on both sizes of picture, and without scripts.
import { beforeAll, expect, it } from "vitest";
import { pageScript } from "../../src/flow/page-script.js";
import { renderCard, renderPage } from "../../src/report/index.js";
import { SIMULATED_CRAFT } from "../../src/words/confidence-words.js";
import { drawn } from "../report/drawn-fixture.js";
import { climbing } from "../report/ladder-fixture.js";
import { browserForTests, describeInChromium } from "./browser.js";
import { plain } from "./small-page.js";

describeInChromium("a map with draws", () => {
  const { open } = browserForTests();
  const map = drawn(climbing());
  let text = "";
  beforeAll(async () => {
    text = await renderPage(map, pageScript());
  });

  it("shows no draw until one is chosen", async () => {
    const { page, complaints } = await open(text);
    expect(await page.locator("#draw-switch").isVisible()).toBe(true);
    expect(await page.locator(".draw-line").count()).toBe(0);
    expect(await page.locator("#draw-shown option").count()).toBe(65);
    expect(complaints).toEqual([]);
  });

  it("shows the boundary of a draw, what it differs in and what fails, chosen with the keys", async () => {
    const { page, complaints } = await open(text);
    const select = page.locator("#draw-shown");
    await select.focus();
    await page.keyboard.press("ArrowDown");
    const index = Number(await select.inputValue());
    const chosen = map.uncertainty?.draws[index];
    expect(chosen?.roll.startFailsBy).not.toBe(null); // those that fail come first
    expect(await page.locator("#map-roll .wide .draw-line").count()).toBe(1);
    expect(await page.locator("#map-pitch .narrow .draw-line").count()).toBe(1);
    const words = await plain(page, "#draw-words");
    expect(words).toContain(`Draw ${index + 1}, furthest from the model as it is written: motor resistance `);
    expect(words).toMatch(/\([\d.]+ × its ±\)/);
    expect(words).toMatch(/Roll fails by /);
    await select.selectOption("");
    expect(await page.locator(".draw-line").count()).toBe(0);
    expect(await plain(page, "#draw-words")).toBe("");
    expect(complaints).toEqual([]);
  });

  it("draws the boundary where the draw has it", async () => {
    const { page } = await open(text);
    await page.selectOption("#draw-shown", "31");
    const path = (await page.locator("#map-roll .wide .draw-line").getAttribute("d")) ?? "";
    const [, x, y] = /^M([\d.]+),([\d.]+)/.exec(path) ?? [];
    const { p } = map.axes.roll.grid;
    const first = map.uncertainty?.draws[31]?.roll.boundary[0] ?? 0;
    const [bottom, top] = [p[0] as number, p.at(-1) as number];
    expect(Number(x)).toBe(0);
    expect(Number(y)).toBeCloseTo(420 * (1 - (first - bottom) / (top - bottom)), 0); // px of the wide picture
  });

  it("reads out in how many draws a point is safe", async () => {
    const { page } = await open(text);
    expect(await plain(page, "#read-roll .share")).toBe(
      `Safe in 52 of 64 draws that did not choose it (70 to 90 %): ${SIMULATED_CRAFT}.`,
    );
    await page.locator("#map-roll .wide .over").focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowUp");
    expect(await plain(page, "#read-roll .share")).toMatch(
      new RegExp(`^Safe in \\d+ of 64 draws: ${SIMULATED_CRAFT}\\.$`),
    );
  });

  it("is complete without scripts, and has no control there", async () => {
    const { page, complaints } = await open(text, { javaScriptEnabled: false });
    expect(await page.locator("#draw-switch").isVisible()).toBe(false);
    expect(await page.locator("details:not(.chapter)").filter({ hasText: "draws, one by one" }).count()).toBe(1);
    expect(complaints).toEqual([]);
  });

  it.each([320, 390, 768, 1280])("never scrolls sideways at %i px", async (width) => {
    const { page } = await open(text, { viewport: { width, height: 900 } });
    await page.selectOption("#draw-shown", "3");
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });

  it("still prints a card of two sheets", async () => {
    const { page } = await open(await renderCard(map));
    const pdf = (await page.pdf({ format: "Letter" })).toString("latin1");
    expect(pdf.match(/\/Type \/Page\b(?!s)/g)).toHaveLength(2);
  });
});
