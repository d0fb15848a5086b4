// The names on the first screen's small map stand on the ground they name. No outside source: a rule of our own.
import { expect, test } from "vitest";
import { frameOf, toPixel } from "../../src/charts/frame.js";
import { locatorSvg } from "../../src/charts/locator.js";
import { aboutSafe, viewOf } from "../../src/charts/view.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { drawnMap } from "../fixtures/drawn-map.js";

/** The lower P safe as written, two thirds of the map, and no point in any draw. */
function unsure(axis: AxisMap): AxisMap {
  const inside = (_: number, j: number) => j < 0.65 * axis.grid.p.length;
  const grid = <T>(of: (i: number, j: number) => T) => axis.grid.d.map((_, i) => axis.grid.p.map((__, j) => of(i, j)));
  if (axis.confidence === undefined) throw new Error("the map has no draws");
  return {
    ...axis,
    safe: grid(inside),
    verdict: grid((i, j) => (inside(i, j) ? "clean" : "ringing")),
    confidence: { ...axis.confidence, safeDraws: grid(() => 0) },
  };
}

test("avoid stands on no ground that is safe as written, where none is safe in enough draws", async () => {
  const whole = await drawnMap();
  const map: StabilityMap = { ...whole, axes: { ...whole.axes, roll: unsure(whole.axes.roll) } };
  const axis = aboutSafe(viewOf(map, []).axes.roll);
  const frame = frameOf(axis.grid, 250, 190); // px, of the small map's plot
  const found = /translate\(([\d.]+),([\d.]+)\)"[^>]*>avoid</.exec(await locatorSvg(map, "roll"));
  expect(found, "avoid is written").not.toBeNull();
  const [x, y] = [Number(found?.[1]), Number(found?.[2])];
  const apart = axis.grid.d.flatMap((d, i) =>
    axis.grid.p.map((p, j) => {
      const [left, up] = toPixel(frame, [d, p]);
      return { distance: Math.hypot(left - x, up - y), safe: axis.safe[i]?.[j] };
    }),
  );
  const nearest = apart.reduce((one, other) => (other.distance < one.distance ? other : one));
  expect(nearest.safe).toBe(false);
});
