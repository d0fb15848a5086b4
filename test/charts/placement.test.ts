import { describe, expect, it } from "vitest";
import { textWidth } from "../../src/charts/advance.js";
import type { Polyline } from "../../src/charts/frame.js";
import { alongLine, besideLine, boxOf, hidden, overlaps, sampled } from "../../src/charts/placement.js";

const frame = { width: 300, height: 200, d: [0, 1], p: [0, 1] } as const;
const line: Polyline = [
  [0, 100],
  [300, 100],
];
const search = { frame, text: "sustained boundary", size: 12, line, taken: [], lines: [line] };

describe("labels", () => {
  it("stand next to their line without covering it", () => {
    const label = besideLine(search);
    expect(label).not.toBeNull();
    const box = boxOf(search.text, label?.at ?? [0, 0], 12);
    expect(hidden(box, sampled(line))).toBe(0);
    expect(Math.abs((label?.at[0] ?? 0) - 150)).toBeLessThan(20);
  });

  it("keep clear of what is taken", () => {
    const taken = [{ left: 100, top: 0, right: 200, bottom: 200 }];
    const label = besideLine({ ...search, text: "6 dB", taken });
    expect(overlaps(boxOf("6 dB", label?.at ?? [150, 100], 12), taken[0] as (typeof taken)[number])).toBe(false);
  });

  it("sit on the line when set into it", () => {
    expect(alongLine({ ...search, text: "6 dB", lines: [] })?.at[1]).toBe(100);
  });

  it("are left out when there is no place inside the frame", () => {
    expect(besideLine({ ...search, taken: [{ left: 0, top: 0, right: 300, bottom: 200 }] })).toBeNull();
  });
});

it.each([1e9, 1e15, 1e300])("follows a line to %d px no further than a picture reaches", (far) => {
  const dots = sampled([
    [0, 0],
    [far, 0],
    [far, 40],
  ]);
  expect(dots.length).toBe(1000 + 8 + 1);
});

it("knows that wide letters are wide", () => {
  expect(textWidth("mmm", 10)).toBeCloseTo(3 * 8.33, 10);
  expect(textWidth("iii", 10)).toBeCloseTo(3 * 2.22, 10);
});
