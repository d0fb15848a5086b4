import { describe, expect, it } from "vitest";
import type { Verdict } from "../../src/base/measures.js";
import { limitLines } from "../../src/charts/limit-lines.js";
import { aboutSafe, viewOf } from "../../src/charts/view.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { pageData } from "../../src/page-data/data.js";
import { extentOf } from "../../src/words/extent.js";
import { fixture } from "../report/fixture.js";

const map = fixture(20);

/** The fixture with everything past the given grid lines sustained on one axis. */
function stableUpTo(lastD: number, lastP: number): StabilityMap {
  const limited = (axis: AxisMap): AxisMap => ({
    ...axis,
    verdict: axis.verdict.map((row, i) =>
      row.map((_, j): Verdict => (i <= lastD && j <= lastP ? "clean" : "sustained")),
    ),
  });
  return { ...map, axes: { roll: limited(map.axes.roll), pitch: limited(map.axes.pitch) } };
}

describe("the part of a map that is drawn", () => {
  it("ends a tenth of the grid past the last stable point", () => {
    const view = viewOf(stableUpTo(4, 9));
    expect(view.axes.roll.grid.d).toEqual(map.axes.roll.grid.d.slice(0, 5 + 2));
    expect(view.axes.roll.grid.p).toEqual(map.axes.roll.grid.p.slice(0, 10 + 2));
  });

  it("cuts every table alike and leaves out boundaries beyond it", () => {
    const { axes } = viewOf(stableUpTo(4, 9));
    const { grid } = axes.roll;
    for (const table of [axes.roll.verdict, axes.roll.safe, axes.roll.measures.heat, axes.roll.margins.gainUp]) {
      expect(table).toHaveLength(grid.d.length);
      expect(table.every((row) => row.length === grid.p.length)).toBe(true);
    }
    expect(axes.roll.boundary.sustained.map(({ d }) => d)).toEqual(grid.d);
  });

  it("is the same for both axes, as far as the wider one goes", () => {
    const narrow = stableUpTo(2, 3);
    const wide = stableUpTo(10, 12);
    const both = viewOf({ ...map, axes: { roll: narrow.axes.roll, pitch: wide.axes.pitch } });
    expect(both.axes.roll.grid).toEqual(viewOf(wide).axes.roll.grid);
  });

  it("reaches as far as a tune pinned where nothing is stable", () => {
    const cut = stableUpTo(4, 9);
    const [p, d] = [
      0.5 * ((map.axes.roll.grid.p[15] as number) + (map.axes.roll.grid.p[16] as number)),
      map.axes.roll.grid.d[2] as number,
    ];
    const pinned = { p, d, safe: false } as unknown as NonNullable<AxisMap["pinned"]>;
    const view = viewOf({ ...cut, axes: { ...cut.axes, pitch: { ...cut.axes.pitch, pinned } } });
    expect(view.axes.roll.grid.d).toEqual(viewOf(cut).axes.roll.grid.d);
    expect(view.axes.roll.grid.p.length).toBe(17 + 2);
  });

  it("is the whole map where everything or nothing is stable", () => {
    expect(viewOf(stableUpTo(19, 19)).axes.roll.grid).toEqual(map.axes.roll.grid);
    expect(viewOf(stableUpTo(-1, -1)).axes.roll.grid).toEqual(map.axes.roll.grid);
  });
});

describe("the points a page's script is given", () => {
  it.each([47, 48, 49, 50, 97])("span what the picture spans, of %d lines a side", (count) => {
    const full = fixture(count);
    const { grid } = pageData(full).axes.roll;
    const shown = viewOf(full).axes.roll.grid;
    for (const along of ["d", "p"] as const) {
      expect(grid[along].length).toBeLessThanOrEqual(48);
      expect([grid[along][0], grid[along].at(-1)]).toEqual([shown[along][0], shown[along].at(-1)]);
    }
  });
});

describe("the range of very many numbers", () => {
  it("is found, where a call could not take them", () => {
    const many = Float64Array.from({ length: 400_000 }, (_, k) => (k * 7919) % 400_000);
    expect(extentOf(many)).toEqual([0, 399_999]);
    expect(extentOf([], 0)).toEqual([0, 0]);
    expect(extentOf([-2], 0, 1)).toEqual([-2, 1]);
  });
});

describe("lines of a limit", () => {
  it("stop where the oscillation no longer dies out", () => {
    const cut = stableUpTo(19, 9);
    const overshoot = map.axes.roll.grid.d.map((d) => ({
      d,
      p: [map.axes.roll.grid.p[5] as number, map.axes.roll.grid.p[15] as number],
    }));
    const roll = { ...cut.axes.roll, boundary: { ...cut.axes.roll.boundary, overshoot } };
    const lines = limitLines(roll, "overshoot");
    expect(lines).toHaveLength(1);
    expect(new Set(lines.flat().map(([, p]) => p))).toEqual(new Set([map.axes.roll.grid.p[5]]));
  });
});

describe("an axis about its safe ground", () => {
  const axis = fixture().axes.roll;
  const near = aboutSafe(axis);

  it("has every safe point, three lines about them, and tables as long as its grid", () => {
    const safe = (one: typeof axis) => one.safe.flat().filter(Boolean).length;
    expect(safe(near)).toBe(safe(axis));
    const { d, p } = near.grid;
    expect(d.length).toBeLessThan(axis.grid.d.length);
    expect(near.safe.findIndex((row) => row.includes(true))).toBe(3);
    expect(near.verdict).toHaveLength(d.length);
    expect(near.verdict.every((row) => row.length === p.length)).toBe(true);
    expect(near.boundary.sustained.map((point) => point.d)).toEqual(d);
  });

  it("is the whole axis where nothing is safe", () => {
    const bare = { ...axis, safe: axis.safe.map((row) => row.map(() => false)) };
    expect(aboutSafe(bare)).toBe(bare);
  });
});
