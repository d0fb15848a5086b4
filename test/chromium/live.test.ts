// The report in a real browser, opened from disk: pointer, keys, touch, the switches, the trial it simulates.
import { beforeAll, expect, it } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { pageScript } from "../../src/flow/page-script.js";
import { placeText, settingText } from "../../src/map/gain-text.js";
import { ownScale } from "../../src/map/own-scale.js";
import type { ConsoleApi } from "../../src/page/trial/trial.js";
import { renderPage } from "../../src/report/index.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { toThreeDigits } from "../../src/words/numbers.js";
import { type Small, smallMap, smallPage } from "../fixtures/report-map.js";
import { browserForTests, describeInChromium } from "./browser.js";
import { expectRead, placeOf, plain, toTrials, trialsListed } from "./small-page.js";

declare const gainscape: ConsoleApi;

describeInChromium("the report opened from disk", () => {
  const { open } = browserForTests();
  let small: Small;
  let text = "";
  beforeAll(async () => {
    small = await smallMap();
    text = await smallPage(small);
  });

  // Generous: a slow machine under load takes a second. What it catches is a page that hangs.
  it("opens within five seconds", async () => {
    const before = performance.now();
    const { page } = await open(text);
    await page.waitForFunction(() => document.documentElement.className === "live");
    expect(performance.now() - before).toBeLessThan(5000);
  });

  it("starts without a complaint, asks for nothing, and evaluates nothing", async () => {
    const { page, complaints } = await open(text);
    expect(await page.evaluate(() => document.documentElement.className)).toBe("live");
    expect(await page.locator("#map-switch").isVisible()).toBe(true);
    expect(await page.locator("#trial").isVisible()).toBe(true);
    expect(await page.locator(".pictures").isVisible()).toBe(false);
    expect(complaints).toEqual([]);
    // In a timer, where the page's own policy rules and not the debugger's leave to do anything.
    const evaluated = await page.evaluate(
      () =>
        new Promise((resolve) =>
          setTimeout(() => {
            try {
              resolve(new Function("return 1")());
            } catch (error) {
              resolve((error as Error).name);
            }
          }),
        ),
    );
    expect(evaluated).toBe("EvalError");
  });

  it("simulates nothing of its own accord where a trial takes very many steps: a button asks", async () => {
    const slow = structuredClone(small.map);
    Object.assign((slow.model as { controller: object }).controller, { rate: 32_000, substeps: 16 });
    const { page, complaints } = await open(await renderPage(slow, pageScript()));
    expect(await page.locator("#trial-ask").isVisible()).toBe(true);
    expect(await plain(page, "#trial-words")).toBe("");
    await page.locator("#trial").scrollIntoViewIfNeeded();
    expect(await page.locator("#trial-list li").count()).toBe(0);
    await page.click("#trial-go");
    expect(await plain(page, "#trial-words")).toMatch(/^Roll, P /);
    expect(await page.locator("#trial-ask").isVisible()).toBe(false);
    expect(await page.locator("#trial-list-go").isVisible()).toBe(true); // the other trials of the point: not unasked
    expect(complaints).toEqual([]);
  });

  it("simulates nothing before the panel comes into sight", async () => {
    const { page, complaints } = await open(text);
    expect(await page.locator("#trial-ask").isVisible()).toBe(false);
    await page.waitForTimeout(200);
    expect(await plain(page, "#trial-words")).toBe("");
    await toTrials(page);
    expect(await plain(page, "#trial-words")).toMatch(/^Roll, P /);
    expect(await page.locator("#trial-list-go").isVisible()).toBe(false);
    expect(complaints).toEqual([]);
  });

  it("reads out the point under the pointer, keeps the one that is clicked, and goes back to it", async () => {
    const { page, complaints } = await open(text);
    const [first, second] = [await placeOf(small, page, "roll", 3, 2), await placeOf(small, page, "roll", 1, 5)];
    await page.mouse.move(first.x, first.y);
    await expectRead(small, page, "roll", 3, 2);
    await page.mouse.click(first.x, first.y);
    await page.mouse.move(second.x, second.y);
    await expectRead(small, page, "roll", 1, 5);
    await page.mouse.move(5, 5);
    await expectRead(small, page, "roll", 3, 2);
    expect(complaints).toEqual([]);
  });

  it("opens with the starting tune's own measures, and draws no cross before the pointer moves", async () => {
    const { page } = await open(text);
    const start = small.map.axes.roll.start;
    if (start === null) throw new Error("the small map has a starting tune");
    const readout = await plain(page, "#read-roll");
    const own = ownScale(small.map);
    expect(readout).toContain(placeText(own, start));
    expect(readout).toContain(`${toThreeDigits(start.p)} % per 100 °/s`);
    expect(readout).toContain("The starting tune itself.");
    expect(readout).toContain(`Wobble angle${toThreeDigits(start.measures.wobbleAngle as number)}° rms`);
    const cross = page.locator("#map-roll .wide .cross path");
    expect(await cross.count()).toBe(0);
    const { x, y } = await placeOf(small, page, "roll", 1, 2);
    await page.mouse.move(x, y);
    expect(await cross.count()).toBe(2);
    await page.mouse.move(5, 5);
    expect(await cross.count()).toBe(0);
    expect(await plain(page, "#read-roll")).toBe(readout);
    await page.locator("#read-roll button").click();
    expect(await page.locator("#trial-p").inputValue()).toBe(settingText(own, "p", start.p));
  });

  it("shows the cross to the keys as soon as the map has their focus", async () => {
    const { page } = await open(text);
    const over = page.locator("#map-roll .wide .over");
    await page.locator("#map-under").focus();
    for (let k = 0; k < 20 && !(await over.evaluate((one) => one === document.activeElement)); k++)
      await page.keyboard.press("Tab");
    expect(await page.locator("#map-roll .wide .cross path").count()).toBe(2);
  });

  it("names the script that decided", async () => {
    const { page } = await open(text);
    const { decidedBy } = small.map.axes.pitch;
    const at = { i: 0, j: 3 };
    const who = small.map.variants[decidedBy[at.i]?.[at.j] as number];
    const { x, y } = await placeOf(small, page, "pitch", at.i, at.j);
    await page.mouse.move(x, y);
    expect(await plain(page, "#read-pitch .decided")).toContain(`Decided by: ${who?.title}`);
    expect(await plain(page, "#read-pitch .decided")).toContain(String(who?.condition));
  });

  it("answers to a finger", async () => {
    const { page, complaints } = await open(text, { hasTouch: true });
    const { x, y } = await placeOf(small, page, "pitch", 2, 4);
    await page.touchscreen.tap(x, y);
    await expectRead(small, page, "pitch", 2, 4);
    expect(complaints).toEqual([]);
  });

  it("is walked with the keys alone, and simulates the point it came to", async () => {
    const { page, complaints } = await open(text);
    const { start } = small.map.axes.roll;
    const over = page.locator("#map-roll .wide .over");
    for (let k = 0; k < 200 && !(await over.evaluate((one) => one === document.activeElement)); k++)
      await page.keyboard.press("Tab");
    expect(await over.evaluate((one) => one === document.activeElement)).toBe(true);
    const near = (line: readonly number[], value: number) =>
      line.reduce((best, at, k) => (Math.abs(at - value) < Math.abs((line[best] as number) - value) ? k : best), 0);
    const [i, j] = [near(small.map.axes.roll.grid.d, start?.d ?? 0), near(small.map.axes.roll.grid.p, start?.p ?? 0)];
    await page.keyboard.press("Home");
    await expectRead(small, page, "roll", i, j);
    for (const key of ["ArrowRight", "ArrowUp", "ArrowUp"]) await page.keyboard.press(key);
    await expectRead(small, page, "roll", i + 1, j + 2);
    expect(await page.locator("#read-roll [role=status]").textContent()).toContain("Roll, P ");
    for (let k = 0; k < 9; k++) await page.keyboard.press("ArrowLeft");
    await expectRead(small, page, "roll", 0, j + 2);
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("trial-title");
    expect(await page.locator("#trial-p").inputValue()).toBe(
      settingText(ownScale(small.map), "p", small.map.axes.roll.grid.p[j + 2] as number),
    );
    expect(await page.locator("#trial-d").inputValue()).toBe("0");
    expect(await plain(page, "#trial-words")).toMatch(/^Roll, P .*this trial decided it/);
    expect(complaints).toEqual([]);
  });

  it("simulates in the browser what the map was made of, bit for bit", async () => {
    const { page } = await open(text);
    const run = taskRunner(small.plan);
    const { p, d } = small.map.axes.roll.grid;
    const places = [
      [1, 2],
      [4, 3],
      [6, 0],
    ] as const;
    const trials = small.plan.variants.flatMap(({ index }) => places.map(([j, i]) => ({ index, i, j })));
    const simulated = await page.evaluate(
      (orders) =>
        orders.map(([index, pGain, dGain]) => gainscape.simulate(index as number, pGain as number, dGain as number)),
      trials.map(({ index, i, j }) => [index, p[j], d[i]]),
    );
    for (const [k, { index, i, j }] of trials.entries()) {
      const grid = small.plan.sweep.grid.roll;
      const task = { variant: index, p: Float64Array.of(grid.p[j] as number), d: Float64Array.of(grid.d[i] as number) };
      const { values, absent, outcome } = run(task);
      expect(MEASURE_IDS.map((id) => simulated[k]?.measures[id])).toEqual(
        MEASURE_IDS.map((_, m) => (absent[m] === 0 ? values[m] : null)),
      );
      expect(simulated[k]?.outcome === "dies out").toBe(outcome[0] === 0);
    }
  });

  it("shows a measure as tinted ground with its limit, and the verdicts again", async () => {
    const { page } = await open(text);
    const ground = page.locator("#map-roll .wide .over svg > g").first();
    expect(await ground.locator("path").count()).toBe(0);
    await page.getByRole("radio", { name: "Bounce-back" }).check();
    expect(await ground.locator("path").count()).toBeGreaterThan(5);
    expect(await ground.locator("path[stroke-dasharray]").count()).toBe(1);
    expect(await plain(page, "#map-words")).toContain("The broken line is the limit, 15 %.");
    expect(await plain(page, "#map-words")).toContain("Bare ground: nothing to measure there.");
    await page.getByRole("radio", { name: "Verdict" }).check();
    expect(await ground.locator("path").count()).toBe(0);
  });

  it("takes gains from the keyboard, any of them, and refuses nonsense quietly", async () => {
    const { page, complaints } = await open(text);
    await toTrials(page);
    await page.locator("#trial-p").fill("5125");
    await page.locator("#trial-p").press("Tab");
    await trialsListed(page);
    expect(await plain(page, "#trial-words")).toMatch(/P 5125, D .* \(20\.5 % per 100 °\/s/);
    const before = await plain(page, "#trial-words");
    await page.locator("#trial-p").fill("");
    await page.locator("#trial-p").press("Tab");
    expect(await plain(page, "#trial-words")).toBe(before);
    await page.locator("#trial-axis").selectOption("pitch");
    expect(await page.locator("#trial-script option").allTextContents()).toContain(
      "Hard stop from a flip at 500\u00a0°/s",
    );
    expect(complaints).toEqual([]);
  });

  it("starts no motion by itself, plays on request, and pauses", async () => {
    const { page } = await open(text);
    const moment = () => page.locator("#trial-time").inputValue().then(Number);
    const world = page.locator(".camera-view > g");
    await toTrials(page);
    await page.locator("#trial-script").selectOption({ label: "Hard stop from a roll at 500\u00a0°/s" });
    const still = await world.getAttribute("transform");
    await page.waitForTimeout(300);
    expect([await moment(), await world.getAttribute("transform")]).toEqual([0, still]);
    await page.getByRole("button", { name: "Play" }).click();
    await page.waitForFunction(() => Number((document.getElementById("trial-time") as HTMLInputElement).value) > 0.1);
    expect(await world.getAttribute("transform")).not.toBe(still);
    await page.getByRole("button", { name: "Pause" }).click();
    const paused = await moment();
    await page.waitForTimeout(200);
    expect(await moment()).toBe(paused);
  });

  it("respects who asks for less motion: no play button, the slider instead", async () => {
    const { page } = await open(text, { reducedMotion: "reduce" });
    await toTrials(page);
    expect(await page.locator("#trial-play").isVisible()).toBe(false);
    expect(await page.locator("#trial-still").isVisible()).toBe(true);
    await page.locator("#trial-script").selectOption({ label: "Hard stop from a roll at 500\u00a0°/s" });
    const world = page.locator(".camera-view > g");
    const before = await world.getAttribute("transform");
    await page.locator("#trial-time").fill("0.5");
    expect(await world.getAttribute("transform")).not.toBe(before);
  });

  it("is silent until requested, sounds, and stops", async () => {
    const { page, complaints } = await open(text);
    await page.addInitScript(() => {
      const made: unknown[] = [];
      const gains: GainNode[] = [];
      Object.assign(globalThis, { made, gains });
      globalThis.AudioContext = class extends AudioContext {
        constructor() {
          super();
          made.push(this);
        }
        override createGain() {
          gains.push(super.createGain());
          return gains.at(-1) as GainNode;
        }
      };
    });
    await page.reload();
    await toTrials(page);
    const contexts = () => page.evaluate(() => (globalThis as unknown as { made: unknown[] }).made.length);
    expect(await contexts()).toBe(0);
    await page.getByRole("button", { name: "Hear the motors" }).click();
    expect(await contexts()).toBe(1);
    // As loud as it is set, while it sounds and when it is started again.
    const loudness = page.getByRole("slider", { name: "Loudness" });
    const heard = () =>
      page.evaluate(() => (globalThis as unknown as { gains: GainNode[] }).gains.map((one) => one.gain.value));
    expect(await heard()).toEqual([0.25]);
    await loudness.focus();
    for (let k = 0; k < 10; k++) await page.keyboard.press("ArrowLeft");
    expect(await loudness.getAttribute("aria-valuetext")).toBe("silent");
    await page.waitForFunction(
      () => ((globalThis as unknown as { gains: GainNode[] }).gains[0]?.gain.value ?? 1) < 0.01,
    );
    await page.getByRole("button", { name: "Stop the sound" }).click();
    await page.keyboard.press("Enter");
    expect(await heard()).toHaveLength(2);
    expect((await heard())[1]).toBe(0);
    await page.getByRole("button", { name: "Stop the sound" }).click();
    expect(await page.getByRole("button", { name: "Hear the motors" }).isVisible()).toBe(true);
    expect(complaints).toEqual([]);
  });
});
