// Theory over a simulated boundary: small circles along the curve, so that agreement with the line below is visible.
import { cos, sin } from "../base/elementary.js";
import type { AxisMap } from "../map/format.js";
import type { TheoryLoop } from "../map/theory-format.js";
import { usefulFirst } from "../map/useful.js";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { geometry, type Layer } from "./layers.js";
import { sampled } from "./placement.js";
import { hundredths } from "./rounding.js";

export const THEORY_RADIUS = 2.6; // px
const EVERY = 3; // of the places along a line, 15 px apart

/** Circles at the given (D, P). */
export function circles(frame: Frame, places: readonly Point[]): Layer[] {
  return places.length === 0 ? [] : [circled(places.map((place) => toPixel(frame, place)))];
}

/** Circles along polylines of (D, P), one at each end, but none that would stick out of the frame. */
export function circlesAlong(frame: Frame, lines: readonly Polyline[]): Layer[] {
  const within = (at: number, end: number) => at >= THEORY_RADIUS && at <= end - THEORY_RADIUS;
  const places = placesAlong(frame, lines).filter(([x, y]) => within(x, frame.width) && within(y, frame.height));
  return places.length === 0 ? [] : [circled(places)];
}

/** Where those circles stand, px. */
export const placesAlong = (frame: Frame, lines: readonly Polyline[]): Point[] =>
  lines.flatMap((line) => {
    const along = sampled(line.map((point) => toPixel(frame, point)));
    return along.filter((_, k) => k % EVERY === 0 || k === along.length - 1);
  });

const CORNERS = 12;

/** A circle as a ring of corners, px. */
function ring([x, y]: Point): Point[] {
  return Array.from({ length: CORNERS + 1 }, (_, k): Point => {
    const angle = (2 * Math.PI * (k % CORNERS)) / CORNERS;
    return [hundredths(x + THEORY_RADIUS * cos(angle)), hundredths(y + THEORY_RADIUS * sin(angle))];
  });
}

function circled(pixels: readonly Point[]): Layer {
  const mark = { filled: true, fill: ink("sheet"), stroke: ink("ink"), strokeWidth: 1 };
  return geometry({ type: "MultiPolygon", coordinates: pixels.map((at) => [ring(at)]) }, mark);
}

/** Theory's curve at one throttle and condition. */
export function theoryLines(axis: AxisMap, throttle: number, condition: string): Polyline[] {
  const loop = axis.boundary.theory?.loops.find((one) => one.throttle === throttle && one.condition === condition);
  return (loop?.curve ?? []).map((line) => line.map(([d, p]) => [d, p] as const));
}

interface Swept {
  readonly d: readonly number[];
  readonly p: readonly number[];
}

/** Per D of the grid the lowest P at which a loop of the axis leaves the stable range that counts; nothing where none does. */
export function theoryWorst(loops: readonly TheoryLoop[], { d: ds, p }: Swept): Point[] {
  const [bottom, top] = [p[0] ?? 0, p.at(-1) ?? 0];
  const ends = (ranges: TheoryLoop["perD"][number]) =>
    ranges.map(([from, to]) => ({ from: from ?? bottom, to: to ?? top, end: to ?? Number.POSITIVE_INFINITY }));
  return ds.flatMap((d, row): Point[] => {
    const least = Math.min(...loops.map(({ perD }) => usefulFirst(ends(perD[row] ?? []))[0]?.end ?? 0));
    return least > 0 && Number.isFinite(least) ? [[d, least]] : [];
  });
}

/** The same as lines within what is shown, broken where theory has no end. */
export function theoryWorstLines({ boundary }: AxisMap, { d, p }: Swept): Polyline[] {
  const ends = new Map(theoryWorst(boundary.theory?.loops ?? [], { d, p }).map((point) => [point[0], point]));
  const shown = d
    .map((one) => ends.get(one))
    .map((point) => (point && point[1] <= (p.at(-1) ?? 0) ? point : undefined));
  return withoutGaps(shown);
}

/** The parts of a line's points between which none is missing. */
export function withoutGaps(points: readonly (Point | undefined)[]): Polyline[] {
  const parts: Point[][] = [[]];
  for (const point of points) {
    if (point === undefined) parts.push([]);
    else parts.at(-1)?.push(point);
  }
  return parts.filter((part) => part.length > 0);
}
