import { describe, expect, it } from "vitest";
import type { Point } from "../../src/charts/frame.js";
import { joined, offFrame } from "../../src/charts/lines.js";

describe("crossings joined into lines", () => {
  it("follows two branches and ends both where a fold closes", () => {
    const lines = joined(
      [
        { d: 0, p: [10, 40] },
        { d: 1, p: [14, 38] },
        { d: 2, p: [20, 30] },
        { d: 3, p: [] },
      ],
      12,
    );
    expect(lines).toEqual([
      [
        [0, 10],
        [1, 14],
        [2, 20],
      ],
      [
        [0, 40],
        [1, 38],
        [2, 30],
      ],
    ]);
  });

  it("starts a new line rather than leap further than the reach", () => {
    expect(
      joined(
        [
          { d: 0, p: [10] },
          { d: 1, p: [40] },
        ],
        12,
      ),
    ).toEqual([[[0, 10]], [[1, 40]]]);
  });

  it("reaches further over a wider step of D", () => {
    const steps = [0, 1, 2, 3, 8].map((d) => ({ d, p: [40 - 4 * d] }));
    expect(joined(steps, 12)).toHaveLength(1);
    expect(joined([...steps, { d: 9, p: [38] }], 12)).toHaveLength(2);
  });

  it("gives a crossing to the nearer of two lines", () => {
    const lines = joined(
      [
        { d: 0, p: [10, 20] },
        { d: 1, p: [18] },
      ],
      12,
    );
    expect(lines).toEqual([
      [[0, 10]],
      [
        [0, 20],
        [1, 18],
      ],
    ]);
  });
});

describe("a ring without its stretches along the frame", () => {
  const ring: Point[] = [
    [0, 0],
    [4, 0],
    [4, 3],
    [2, 5],
    [0, 3],
  ];
  const onFrame = (a: Point, b: Point) => (a[0] === b[0] && (a[0] === 0 || a[0] === 4)) || (a[1] === 0 && b[1] === 0);

  it("keeps the free part as one line", () => {
    expect(offFrame(ring, onFrame)).toEqual([
      [
        [4, 3],
        [2, 5],
        [0, 3],
      ],
    ]);
  });

  it("closes a ring that never touches the frame and drops one that never leaves it", () => {
    expect(offFrame(ring, () => false)).toEqual([[...ring, [0, 0]]]);
    expect(offFrame(ring, () => true)).toEqual([]);
    expect(offFrame([], () => false)).toEqual([]);
  });
});
