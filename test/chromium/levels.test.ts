// One throttle level and pack alone on the maps: simulated in a real browser, shown, explained, and left again.
import { beforeAll, expect, it } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { toThreeDigits } from "../../src/words/numbers.js";
import { type Small, smallMap, smallPage } from "../fixtures/report-map.js";
import { browserForTests, describeInChromium } from "./browser.js";
import { expectRead, placeOf, plain } from "./small-page.js";

describeInChromium("one level of the report's maps", () => {
  const { open } = browserForTests();
  let small: Small;
  let text = "";
  beforeAll(async () => {
    small = await smallMap();
    text = await smallPage(small);
  });

  it("simulates one throttle level and pack on request, and says so", async () => {
    const { page, complaints } = await open(text);
    const keyed = () => page.locator(".key li:visible b").allTextContents();
    const ground = page.locator("#map-roll .wide .over svg > g").first();
    expect(await keyed()).toContain("Contours");
    await page.locator("#map-under").selectOption({ label: "60 % throttle, tired pack" });
    await page.waitForFunction(() => /^Simulated/.test(document.getElementById("map-status")?.textContent ?? ""));
    expect(await keyed()).toContain("Sustained boundary");
    expect(await keyed()).not.toContain("Contours");
    expect(await keyed()).not.toContain("Safe");
    expect(await page.locator("#map-roll figcaption").isVisible()).toBe(false);
    expect(await ground.locator("text.ground-name").allTextContents()).toContain("Clean");
    expect(await ground.locator("circle").count()).toBe(0); // by theory nothing gives out here on a tired pack
    const { x, y } = await placeOf(small, page, "roll", 2, 3);
    await page.mouse.move(x, y);
    expect(await plain(page, "#read-roll .decided")).toContain("Under 60 % throttle, tired pack alone.");
    const stop = small.plan.variants.find(
      (one) => one.axis === "roll" && one.script.kind === "stop" && one.condition === 1 && !one.hovering,
    );
    const { p, d } = small.plan.sweep.grid.roll;
    const trial = taskRunner(small.plan)({
      variant: stop?.index ?? -1,
      p: p.slice(3, 4) as never,
      d: d.slice(2, 3) as never,
    });
    const overshoot = trial.values[MEASURE_IDS.indexOf("overshoot")] as number;
    expect(await plain(page, "#read-roll .values")).toContain(`Bounce-back${toThreeDigits(overshoot)} %`);
    await page.locator("#map-under").selectOption("");
    await expectRead(small, page, "roll", 2, 3);
    expect(await plain(page, "#read-roll .decided")).not.toContain("alone");
    expect(await keyed()).toContain("Contours");
    expect(await ground.locator("*").count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it("lays theory's circles over a level where theory has an end", async () => {
    const { page } = await open(text);
    await page.locator("#map-under").selectOption({ label: "60 % throttle, fresh pack" });
    await page.waitForFunction(() => /^Simulated/.test(document.getElementById("map-status")?.textContent ?? ""));
    const { p, d } = small.map.axes.roll.grid;
    const loops = small.map.axes.roll.boundary.theory?.loops ?? [];
    const [end] =
      loops.find(({ throttle, condition }) => throttle === 60 && condition === "fresh pack")?.curve[0] ?? [];
    if (end === undefined) throw new Error("theory has an end there");
    const first = page.locator("#map-roll .wide .over svg > g").first().locator("circle").first();
    const share = (line: readonly number[], value: number) =>
      (value - (line[0] as number)) / ((line.at(-1) as number) - (line[0] as number));
    expect(Number(await first.getAttribute("cx"))).toBeCloseTo(520 * share(d, end[0]), 0);
    expect(Number(await first.getAttribute("cy"))).toBeCloseTo(420 * (1 - share(p, end[1])), 0);
  });

  it("dims a map while its level is simulated, and shows roll before pitch is done", async () => {
    const { page } = await open(text);
    const readout = await page.evaluate(async () => {
      const under = document.getElementById("map-under") as HTMLSelectElement;
      const words = (axis: string) =>
        [...document.querySelectorAll(`#map-${axis} .wide .ground-name`)].map((one) => one.textContent ?? "");
      const states: [roll: string[], pitch: string[]][] = [];
      const status = document.getElementById("map-status") as HTMLElement;
      const done = new Promise<void>((resolve) => {
        new MutationObserver(() => {
          states.push([words("roll"), words("pitch")]);
          if (status.textContent?.startsWith("Simulated")) resolve();
        }).observe(status, { childList: true, characterData: true, subtree: true });
      });
      under.value = "1";
      under.dispatchEvent(new Event("change", { bubbles: true }));
      await done;
      return states;
    });
    const dim = ["being simulated"];
    expect(readout[0]).toEqual([dim, dim]);
    expect(readout.some(([roll, pitch]) => roll.includes("Clean") && pitch[0] === dim[0])).toBe(true);
    expect(readout.at(-1)?.flat()).not.toContain(dim[0]);
  });
});
