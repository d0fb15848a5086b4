// The mark of each ground, after the signs of a field map: waves for soft ground, dots for sand, strokes for heat, crossed strokes
// for rock, tufts for firm ground; where two maps are compared, strokes the other way and crosses. They distinguish grounds in grey
// print and for colour-blind readers.
import { at } from "../base/at.js";
import type { Verdict } from "../base/measures.js";
import { inside } from "./clip.js";
import type { Point, Polyline } from "./frame.js";
import type { Role } from "./ink.js";
import { edgesOf } from "./lines.js";
import { tenths } from "./rounding.js";

interface MarkStroke {
  readonly role: Role;
  readonly width: number; // px
}

/** What carries a mark: a verdict's ground, or what was lost or gained of the safe one. */
export type MarkedGround = Verdict | "lost" | "gained";

/** Stroke of each mark. */
export const MARK_STROKES: Readonly<Record<MarkedGround, MarkStroke>> = Object.freeze({
  sustained: { role: "sustained-mark", width: 1 },
  hot: { role: "hot-mark", width: 1.1 },
  ringing: { role: "ringing-mark", width: 2.2 },
  loose: { role: "loose-mark", width: 1.1 },
  clean: { role: "clean-mark", width: 1 },
  lost: { role: "lost-mark", width: 1.1 },
  gained: { role: "gained-mark", width: 1.3 },
});

interface Area {
  readonly width: number; // px
  readonly height: number; // px
  /** Rings in px; what lies inside an odd number of them is covered. */
  readonly rings: readonly Polyline[];
}

type Draw = (area: Area) => Polyline[];

const DRAW: Readonly<Record<MarkedGround, Draw>> = {
  sustained: (area) => [...hatch(area, 1, 8), ...hatch(area, -1, 8)],
  hot: (area) => hatch(area, -1, 7),
  ringing: (area) =>
    scattered(
      area,
      [
        [
          [0, 0],
          [0, 0],
        ],
      ],
      [9, 4.5],
    ),
  loose: (area) =>
    scattered(
      area,
      [
        [
          [-5, 0],
          [-3.8, -1.1],
          [-2.5, -1.3],
          [-1.2, -0.8],
          [0, 0],
          [1.2, 0.8],
          [2.5, 1.3],
          [3.8, 1.1],
          [5, 0],
        ],
      ],
      [18, 6],
    ),
  clean: (area) =>
    scattered(
      area,
      [
        [
          [0, 0],
          [0, -4.5],
        ],
        [
          [-2, 0],
          [-3.6, -2.8],
        ],
        [
          [2, 0],
          [3.6, -2.8],
        ],
      ],
      [27, 12],
    ),
  lost: (area) => hatch(area, 1, 7),
  gained: (area) =>
    scattered(
      area,
      [
        [
          [-2.5, 0],
          [2.5, 0],
        ],
        [
          [0, -2.5],
          [0, 2.5],
        ],
      ],
      [16, 8],
    ),
};

/** Marks of a ground over an area, as polylines in px; a line of no length is a dot. */
export const marksOver = (area: Area, ground: MarkedGround): Polyline[] => DRAW[ground](area);

/** Parallel strokes at 45 degrees, cut at the rings. */
function hatch(area: Area, slope: 1 | -1, spacing: number): Polyline[] {
  const [from, to] = slope === 1 ? [-area.width, area.height] : [0, area.height + area.width];
  const lines: Polyline[] = [];
  for (let offset = Math.ceil(from / spacing) * spacing; offset <= to; offset += spacing) {
    const xs = area.rings.flatMap((ring) => cuts(ring, slope, offset)).sort((a, b) => a - b);
    for (let k = 0; k + 1 < xs.length; k += 2) {
      const [a, b] = [at(xs, k), at(xs, k + 1)];
      lines.push([
        [tenths(a), tenths(slope * a + offset)],
        [tenths(b), tenths(slope * b + offset)],
      ]);
    }
  }
  return lines;
}

/** x at which a ring crosses the line y = slope x + offset. */
function cuts(ring: Polyline, slope: number, offset: number): number[] {
  const height = ([x, y]: Point) => y - slope * x - offset;
  return edgesOf(ring).flatMap(([a, b]) => {
    const [from, to] = [height(a), height(b)];
    return from < 0 === to < 0 ? [] : [a[0] + (from / (from - to)) * (b[0] - a[0])];
  });
}

/** One glyph on a staggered lattice, wherever the whole of it lies on the area. */
function scattered(area: Area, glyph: readonly Polyline[], [across, down]: readonly [number, number]): Polyline[] {
  const found: Polyline[] = [];
  for (let row = 0; (row + 1) * down < area.height; row++)
    for (let x = row % 2 === 0 ? across / 2 : across; x < area.width; x += across) {
      const placed = glyph.map((line) =>
        line.map(([dx, dy]): Point => [tenths(x + dx), tenths((row + 1) * down + dy)]),
      );
      if (placed.every((line) => line.every((point) => inside(area.rings, point)))) found.push(...placed);
    }
  return found;
}
