// Where labels go so that none covers another, a line or the starting tune.
import { halfSizes } from "./advance.js";
import type { Frame, Point, Polyline } from "./frame.js";

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Label {
  readonly text: string;
  /** Centre of the text, px. */
  readonly at: Point;
}

const MARGIN = 4; // px, kept free inside the frame
const STEP = 5; // px, between the places tried along a line
/** Tried along one straight piece: further than any picture is wide, whatever a map's numbers say. */
const MOST_PLACES = 1000;
const CLEARANCE = 4; // px, between a line and its label
const GAP = 3; // px, kept free about a text

/** Box of a text set about its centre. */
export function boxOf(text: string, [x, y]: Point, size: number): Box {
  const [across, up] = halfSizes(text, size);
  const half = across + GAP;
  return { left: x - half, top: y - up, right: x + half, bottom: y + up };
}

export const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

const holds = (box: Box, [x, y]: Point): boolean => x > box.left && x < box.right && y > box.top && y < box.bottom;

export const insideFrame = (frame: Frame, box: Box): boolean =>
  box.left >= MARGIN && box.top >= MARGIN && box.right <= frame.width - MARGIN && box.bottom <= frame.height - MARGIN;

/** Points of a polyline no further apart than a step, as far as a picture reaches. */
export function sampled(line: Polyline): Point[] {
  return line.flatMap(([x, y], k) => {
    const [toX, toY] = line[k + 1] ?? [x, y];
    const steps = Math.ceil(Math.hypot(toX - x, toY - y) / STEP);
    const parts = Math.min(MOST_PLACES, Math.max(1, steps));
    return Array.from({ length: parts }, (_, n): Point => [x + ((toX - x) * n) / parts, y + ((toY - y) * n) / parts]);
  });
}

type Places = (text: string, point: Point, size: number) => readonly Point[];

const nextTo: Places = (text, [x, y], size) => {
  const [halfWidth, halfHeight] = halfSizes(text, size);
  const [across, up] = [halfWidth + CLEARANCE, halfHeight + CLEARANCE];
  return [
    [x, y - up],
    [x, y + up],
    [x + across, y],
    [x - across, y],
  ];
};

const onLine: Places = (_, point) => [point];

export interface Search {
  readonly frame: Frame;
  readonly text: string;
  readonly size: number; // px
  readonly line: Polyline; // px
  /** Boxes no label may touch. */
  readonly taken: readonly Box[];
  /** Lines a label should not hide. */
  readonly lines: readonly Polyline[];
}

function bestPlace({ frame, text, size, line, taken, lines }: Search, places: Places): Label | null {
  const dots = lines.flatMap(sampled);
  const along = sampled(line);
  let best: { at: Point; cost: number } | undefined;
  for (const [k, point] of along.entries())
    for (const at of places(text, point, size)) {
      const box = boxOf(text, at, size);
      if (!insideFrame(frame, box) || taken.some((other) => overlaps(other, box))) continue;
      const cost = hidden(box, dots) + Math.abs(k / along.length - 0.5);
      if (best === undefined || cost < best.cost) best = { at, cost };
    }
  return best === undefined ? null : { text, at: best.at };
}

/** How many of the dots a box would hide. */
export const hidden = (box: Box, dots: readonly Point[]): number => dots.filter((dot) => holds(box, dot)).length;

/** The best place for a label beside its line, or null when every place is taken. */
export const besideLine = (search: Search): Label | null => bestPlace(search, nextTo);

/** The best place for a label set into its line as on a contour; `lines` are then the other lines. */
export const alongLine = (search: Search): Label | null => bestPlace(search, onLine);
