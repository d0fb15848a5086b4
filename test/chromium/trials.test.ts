// "See and hear" in a real browser: which trial a point opens with, the list of its trials, and what it says of them.
import { beforeAll, expect, it } from "vitest";
import { pageScript } from "../../src/flow/page-script.js";
import { renderPage } from "../../src/report/index.js";
import { AXES } from "../../src/words/axes.js";
import { type Small, smallMap, smallPage } from "../fixtures/report-map.js";
import { findings } from "./axe.js";
import { browserForTests, describeInChromium } from "./browser.js";
import { placeOf, plain, toTrials, trialsListed } from "./small-page.js";

describeInChromium("the trials of a point", () => {
  const { open } = browserForTests();
  let small: Small;
  let text = "";
  beforeAll(async () => {
    small = await smallMap();
    text = await smallPage(small);
  });

  /** Clicks a point of the map that has the verdict, decided by a trial other than the first of the form. */
  const pointWith = (verdict: string) => {
    for (const axis of AXES)
      for (const [i, row] of small.map.axes[axis].verdict.entries())
        for (const [j, one] of row.entries())
          if (one === verdict && (small.map.axes[axis].decidedBy[i]?.[j] ?? -1) >= 0) return { axis, i, j };
    throw new Error(`no ${verdict} point in the small map`);
  };

  it.each(["sustained", "ringing", "loose"])("of a %s point open with the one that decided it", async (verdict) => {
    const { page, complaints } = await open(text);
    const { axis, i, j } = pointWith(verdict);
    const { x, y } = await placeOf(small, page, axis, i, j);
    await page.mouse.click(x, y);
    await page.locator(`#read-${axis} button`).click();
    const who = small.map.variants[small.map.axes[axis].decidedBy[i]?.[j] as number];
    const words = await plain(page, "#trial-words");
    expect(words).toContain(`: ${who?.title}`);
    expect(words).toContain(`The map calls this point ${verdict}, and this trial decided it.`);
    expect(/does not die out/.test(words)).toBe(verdict === "sustained");
    expect(await page.locator("#trial-chart svg").first().isVisible()).toBe(true);
    await trialsListed(page);
    const first = page.locator("#trial-list li").first();
    expect(await first.textContent()).toContain(who?.title);
    expect(await first.textContent()).toContain("decided the point");
    expect(await first.locator("input").isChecked()).toBe(true);
    const count = small.plan.variants.filter((variant) => variant.axis === axis).length;
    expect(await page.locator("#trial-lists li").count()).toBe(count);
    expect(complaints).toEqual([]);
  });

  it("of a point that theory alone calls sustained open with none of their calm traces", async () => {
    const map = structuredClone(small.map);
    const { axis, i, j } = pointWith("loose");
    const found = map.axes[axis] as unknown as { verdict: string[][]; decidedBy: number[][] };
    const variant = small.plan.variants.findIndex((one) => one.axis === axis);
    (found.verdict[i] as string[])[j] = "sustained";
    (found.decidedBy[i] as number[])[j] = -2 - variant;
    const { page, complaints } = await open(await renderPage(map, pageScript()));
    const { x, y } = await placeOf(small, page, axis, i, j);
    await page.mouse.click(x, y);
    await page.locator(`#read-${axis} button`).click();
    await trialsListed(page);
    expect(await plain(page, "#trial-words")).toMatch(
      /The map calls this point sustained: no trial of it shows that, theory at .* does\. Choose a trial to see it\./,
    );
    expect(await page.locator("#trial-views").isVisible()).toBe(false);
    await page.locator("#trial-list input").first().check();
    expect(await page.locator("#trial-chart svg").first().isVisible()).toBe(true);
    expect(complaints).toEqual([]);
  });

  it("of the starting tune open with the one nearest to a limit", async () => {
    const { page } = await open(text);
    await toTrials(page);
    const words = await plain(page, "#trial-words");
    expect(words).toContain("The starting tune: no trial of it passes a limit.");
    expect(await plain(page, "#trial-list-words")).toMatch(/none passes a limit, the nearest to one comes first/);
    const first = ((await page.locator("#trial-list li span").first().textContent()) ?? "").replaceAll("\u00a0", " ");
    expect(words).toContain(first);
  });

  it("are chosen from the list with the keys, those under the fold too", async () => {
    const { page, complaints } = await open(text);
    await toTrials(page);
    await page.locator("#trial-list input:checked").focus();
    await page.keyboard.press("ArrowDown");
    const second = ((await page.locator("#trial-list li span").nth(2).textContent()) ?? "").replaceAll("\u00a0", " ");
    expect(await plain(page, "#trial-words")).toContain(second);
    expect(await page.locator("#trial-list input").nth(1).isChecked()).toBe(true);
    const fold = page.locator("#trial-list-more");
    await fold.focus();
    await page.keyboard.press("Enter");
    await page.locator("#trial-list-rest input").first().focus();
    await page.keyboard.press("Space");
    expect(await page.locator("#trial-list-rest input").first().isChecked()).toBe(true);
    expect(complaints).toEqual([]);
  });

  it("say by which other trial a point was decided, where the one shown is calm", async () => {
    const { page } = await open(text);
    const { axis, i, j } = pointWith("sustained");
    const { x, y } = await placeOf(small, page, axis, i, j);
    await page.mouse.click(x, y);
    await page.locator(`#read-${axis} button`).click();
    await trialsListed(page);
    await page.locator("#trial-list-more").click();
    await page.locator("#trial-lists li input").last().check();
    const words = await plain(page, "#trial-words");
    expect(words).toMatch(/The map calls this point sustained, not by this trial but by: /);
  });

  it("follow the gains that are typed: the worst one again, or the same manoeuvre where the reader stays with it", async () => {
    const { page } = await open(text);
    await toTrials(page);
    const label = small.map.variants.find(({ script }) => script === "punch-out")?.title ?? "";
    await page.locator("#trial-script").selectOption({ label });
    expect(await plain(page, "#trial-words")).toContain(label);
    await page.locator("#trial-stay").check();
    await page.locator("#trial-p").fill("5125");
    await page.locator("#trial-p").press("Tab");
    await trialsListed(page);
    expect(await plain(page, "#trial-words")).toContain(`: ${label}`);
    expect(await plain(page, "#trial-words")).toContain("between the points of the map");
    await page.locator("#trial-stay").uncheck();
    await page.locator("#trial-p").fill("11875");
    await page.locator("#trial-p").press("Tab");
    await page.waitForFunction(() => (document.querySelector("#trial-list input") as HTMLInputElement | null)?.checked);
    expect(await plain(page, "#trial-words")).toContain("P 11875");
  });

  it("show each rotor in a strip of its own, and what is left at the end by frequency, the rotors' lines apart", async () => {
    const { page } = await open(text);
    await toTrials(page);
    const [time, frequency] = [page.locator("#trial-chart svg").first(), page.locator("#trial-chart svg").nth(1)];
    const names = await time.locator("text").allTextContents();
    for (const name of ["1 front right", "2 front left", "3 rear left", "4 rear right"]) expect(names).toContain(name);
    const said = await frequency.locator("text").allTextContents();
    expect(said).toContain("rotors");
    expect(said.some((word) => /^loop, [\d.]+\u00a0Hz$/.test(word))).toBe(true);
    expect(await plain(page, "#trial-words")).toMatch(
      /rms of the loop itself, strongest at .* rms of the rotors' vibration/,
    );
    expect(await plain(page, "#trial-listen")).toMatch(/blades passing, .* it belongs there/);
  });

  it("open by the map of one level as that level alone has it", async () => {
    const { page } = await open(text);
    await page.locator("#map-under").selectOption({ label: "60 % throttle, tired pack" });
    await page.waitForFunction(() => /^Simulated/.test(document.getElementById("map-status")?.textContent ?? ""));
    const { x, y } = await placeOf(small, page, "roll", 0, 6);
    await page.mouse.click(x, y);
    await page.locator("#read-roll button").click();
    await trialsListed(page);
    const words = await plain(page, "#trial-words");
    expect(words).toMatch(
      /60 % throttle, tired pack\. +Under 60 % throttle, tired pack alone this point is \w+, and this trial/,
    );
  });

  it.each([390, 1280])("leave nothing for axe at %i px, and never scroll sideways", async (width) => {
    const { page } = await open(text, { viewport: { width, height: 844 }, bypassCSP: true });
    await toTrials(page);
    await page.locator("#trial-list-more").click();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(await findings(page)).toEqual([]);
  });
});
