// Stable ground in several pieces, and ground that theory ends: named in text and page.
import { describe, expect, it } from "vitest";
import type { BoundaryPoint, StabilityMap } from "../../src/map/format.js";
import { renderPage, renderSummary } from "../../src/report/index.js";
import { fixture } from "./fixture.js";

const map = fixture(16);
const plain = (text: string) => text.replaceAll("\u00a0", " ");

/** Every D of roll with parts of its boundary changed. */
const changed = (change: Partial<BoundaryPoint>, drop: readonly (keyof BoundaryPoint)[] = []): StabilityMap => {
  const { roll } = map.axes;
  const sustained = roll.boundary.sustained.map((point) => {
    const entries = Object.entries({ ...point, ...change }).filter(([key]) => !drop.includes(key as never));
    return Object.fromEntries(entries) as unknown as BoundaryPoint;
  });
  return { ...map, axes: { ...map.axes, roll: { ...roll, boundary: { ...roll.boundary, sustained } } } };
};

const nudge = { script: "nudge", throttle: 80, rate: 0, condition: "fresh pack" };
const sliver = changed({ p: 40, from: 5, fromDecidedBy: nudge, otherRanges: [[null, 3.2]] }, ["reason"]);
const rollOf = (of: StabilityMap) => plain(renderSummary(of)).split("Pitch:")[0];

describe("a sliver below the range that counts", () => {
  it("is named where the text says what to avoid, and so is the lower end", () => {
    const text = rollOf(sliver);
    expect(text).toMatch(/from P 40 up the oscillation does not die out/);
    expect(text).toMatch(/Nor does it below P 5 \(small nudge, 80 % throttle, fresh pack\)\./);
    expect(text).toMatch(/A sliver below \(D [\d.]+, P [\d.]+ to 3\.2\) is calm as well, but on the way up/);
  });

  it("leaves no doubt where nothing ends the range above: there is a P below which nothing may be tried", () => {
    const text = rollOf(
      changed({ p: null, reason: "never", from: 5, fromDecidedBy: nudge, otherRanges: [[null, 3.2]] }),
    );
    expect(text).toMatch(
      /no P from 5 up to [\d.]+ sustains an oscillation; above it nothing was simulated\. Below P 5 it does/,
    );
  });

  it("is named on the page", async () => {
    const rows = map.axes.roll.grid.d.length;
    expect(await renderPage(sliver)).toContain(`At ${rows} of ${rows} D stable ground lies in two pieces or more`);
  });

  it("an island above it is named as such", () => {
    const text = rollOf(changed({ p: 20, otherRanges: [[30, null]] }, ["reason", "from"]));
    expect(text).toMatch(
      /Above it there is calm ground once more \(D [\d.]+, P 30 to [\d.]+\), beyond an oscillation\./,
    );
  });
});

describe("a boundary that theory ends", () => {
  it("names theory, its throttle and pack", () => {
    const text = rollOf(changed({ ...nudge, p: 14, script: "theory" }, ["reason"]));
    expect(text).toMatch(/from P 14 up the oscillation does not die out \(theory at 80 % throttle, fresh pack\)\./);
  });

  it("a map without any of this says nothing of it", async () => {
    expect(plain(renderSummary(map))).not.toMatch(/sliver|calm ground|theory at/);
    expect(await renderPage(map)).not.toMatch(/in two pieces or more|there theory ends/);
  });
});
