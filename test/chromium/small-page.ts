// The small real map as an open page: where its points lie, and what they should say.
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { placeText } from "../../src/map/gain-text.js";
import { ownScale } from "../../src/map/own-scale.js";
import { toThreeDigits } from "../../src/words/numbers.js";
import type { Small } from "../fixtures/report-map.js";

export const plain = async (page: Page, selector: string) =>
  ((await page.locator(selector).textContent()) ?? "").replaceAll("\u00a0", " ");

/** The middle of a grid point on the wide map of an axis. */
export async function placeOf({ map }: Small, page: Page, axis: string, i: number, j: number) {
  const over = page.locator(`#map-${axis} .wide .over`);
  await over.scrollIntoViewIfNeeded();
  const box = (await over.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
  const { d, p } = map.axes.roll.grid;
  const share = (line: readonly number[], k: number) =>
    ((line[k] as number) - (line[0] as number)) / ((line.at(-1) as number) - (line[0] as number));
  return {
    x: box.x + 0.999 * share(d, i) * box.width + 0.2,
    y: box.y + (1 - 0.999 * share(p, j)) * box.height - 0.2,
  };
}

/** What the map says of a point, as the panel should put it. */
function mapped({ map }: Small, axis: "roll" | "pitch", i: number, j: number) {
  const { measures, verdict, safe } = map.axes[axis];
  const { p, d } = map.axes.roll.grid;
  const own = ownScale(map);
  return {
    place: placeText(own, { p: p[j] as number, d: d[i] as number }),
    d: `${toThreeDigits(d[i] as number)} % per 1000 °/s²`,
    overshoot: measures.overshoot[i]?.[j],
    title: safe[i]?.[j] ? "Clean and safe" : (verdict[i]?.[j] as string),
  };
}

export async function expectRead(small: Small, page: Page, axis: "roll" | "pitch", i: number, j: number) {
  const readout = await plain(page, `#read-${axis}`);
  const { place, d, overshoot, title } = mapped(small, axis, i, j);
  expect(readout).toContain(place);
  expect(readout).toContain(d);
  expect(readout.toLowerCase()).toContain(title.toLowerCase());
  if (overshoot != null) expect(readout).toContain(`Bounce-back${toThreeDigits(Number(overshoot.toPrecision(3)))} %`);
}

/** Brings the trial panel into sight, which has it simulate, and waits until it has listed the trials of its point. */
export async function toTrials(page: Page): Promise<void> {
  await page.locator("#trial").scrollIntoViewIfNeeded();
  await trialsListed(page);
}

export const trialsListed = (page: Page) =>
  page.waitForFunction(() => /\btrials\b/.test(document.getElementById("trial-list-words")?.textContent ?? ""));
