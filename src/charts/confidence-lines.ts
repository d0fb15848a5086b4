// The region that is safe at the confidence, and the sustained boundary of many draws as a band, as outlines and lines.
import { at } from "../base/at.js";
import type { BandPoint } from "../map/confidence-format.js";
import type { GridLines } from "../map/format.js";
import type { Sure } from "../map/sure.js";
import type { Frame, Point, Polyline } from "./frame.js";
import { type Crossing, rings } from "./rings.js";

/** How they are drawn; the page's key shows the same. */
export const CONFIDENCE_LINES = Object.freeze({
  region: { role: "ink", width: 2.4 },
  asWritten: { role: "ink", width: 0.9 },
  middle: { role: "ink", width: 2.8 },
  edge: { role: "ink", width: 1, dash: [4, 3] },
} as const);

/** Opacity of the band's ground, which lies over others. */
export const BAND_OPACITY = 0.2;

/** Outline of the points that are safe in as many draws as the confidence asks for, linear in the count between points. */
export function confidentRings(grid: GridLines, { safeDraws, level, holds }: Sure): Point[][] {
  const crossing: Crossing = (i, j, along) => {
    const from = safeDraws[i]?.[j] ?? 0;
    const to = (along === "d" ? safeDraws[i + 1]?.[j] : safeDraws[i]?.[j + 1]) ?? 0;
    return from === to ? 0.5 : (level - from) / (to - from);
  };
  return rings(grid, holds, crossing);
}

/** The sustained boundary over the draws, within the frame. */
export interface Band {
  /** From 5 to 95 of 100 draws. */
  readonly area: readonly Polyline[];
  readonly low: readonly Polyline[];
  readonly middle: readonly Polyline[];
  readonly high: readonly Polyline[];
}

export function bandOf(frame: Frame, band: readonly BandPoint[]): Band {
  const line = (of: "low" | "middle" | "high") =>
    boundaryLines(
      frame,
      band.map((point) => [point.d, point[of]]),
    );
  return { area: areaOf(frame, band), low: line("low"), middle: line("middle"), high: line("high") };
}

/** A boundary, P per D, as far as it lies in the frame; null: far above it. */
export const boundaryLines = (
  frame: Frame,
  points: readonly (readonly [d: number, p: number | null])[],
): Polyline[] => {
  const parts: Point[][] = [[]];
  for (const [from, to] of segments(frame, points)) {
    const [a, b] = inFrame(frame, from, to) ?? [];
    if (a === undefined || b === undefined) continue;
    const open = at(parts, parts.length - 1);
    const last = open.at(-1);
    if (last !== undefined && (last[0] !== a[0] || last[1] !== a[1])) parts.push([a, b]);
    else open.push(...(last === undefined ? [a, b] : [b]));
  }
  return parts.filter((part) => part.length > 1);
};

/** Stands for "far above": so high that a line to it leaves the frame beside the last point that has a place. */
const farAbove = ({ p: [bottom, top] }: Frame): number => top + 20 * (top - bottom);

const placed = (frame: Frame, [d, p]: readonly [number, number | null]): Point => [d, p ?? farAbove(frame)];

function segments(frame: Frame, points: readonly (readonly [number, number | null])[]): (readonly [Point, Point])[] {
  return points.slice(1).map((point, k) => [placed(frame, at(points, k)), placed(frame, point)]);
}

/** The part of a straight line between the frame's lowest and highest P; null where none is. */
function inFrame({ p: [bottom, top] }: Frame, from: Point, to: Point): readonly [Point, Point] | null {
  const share = (level: number) => (level - from[1]) / (to[1] - from[1]);
  const within = (p: number) => p >= bottom && p <= top;
  const cuts = from[1] === to[1] ? [] : [share(bottom), share(top)].filter((one) => one > 0 && one < 1);
  const ends = [...(within(from[1]) ? [0] : []), ...cuts, ...(within(to[1]) ? [1] : [])].sort(
    (one, other) => one - other,
  );
  const place = (one: number): Point => [
    from[0] + one * (to[0] - from[0]),
    Math.min(top, Math.max(bottom, from[1] + one * (to[1] - from[1]))),
  ];
  const [first, last] = [ends[0], ends.at(-1)];
  return first === undefined || last === undefined || first === last ? null : [place(first), place(last)];
}

/** Between low and high, cut off at the frame. */
function areaOf(frame: Frame, band: readonly BandPoint[]): Polyline[] {
  const edge = (of: "low" | "high") =>
    cutAtFrame(
      frame,
      band.map((point) => placed(frame, [point.d, point[of]])),
    );
  const [low, high] = [edge("low"), edge("high")];
  const flat = [...low, ...high].every(([, p]) => p === frame.p[1]) || low.length < 2;
  return flat ? [] : [[...low, ...high.reverse()]];
}

/** A line that runs along the frame where it lies beyond it. */
function cutAtFrame(frame: Frame, line: readonly Point[]): Point[] {
  const [bottom, top] = frame.p;
  const clamp = (p: number) => Math.min(top, Math.max(bottom, p));
  const points = line.flatMap((from, k): Point[] => {
    const to = line[k + 1];
    if (to === undefined || from[1] === to[1]) return [from];
    const cuts = [bottom, top]
      .map((level) => (level - from[1]) / (to[1] - from[1]))
      .filter((share) => share > 0 && share < 1)
      .sort((one, other) => one - other);
    return [
      from,
      ...cuts.map((share): Point => [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]),
    ];
  });
  return points.map(([d, p]) => [d, clamp(p)]);
}
