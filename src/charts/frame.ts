// The window a figure looks through: the swept range, D across and P up, and its size in pixels.
import type { GridLines } from "../map/format.js";
import { hundredths } from "./rounding.js";

export type Point = readonly [x: number, y: number];
export type Polyline = readonly Point[];

export interface Frame {
  readonly width: number; // px
  readonly height: number; // px
  readonly d: readonly [number, number];
  readonly p: readonly [number, number];
}

/** The frame is exactly the swept range: nothing is drawn where nothing was simulated. */
export function frameOf({ d, p }: GridLines, width: number, height: number): Frame {
  const ends = (line: readonly number[]) => [line[0] ?? 0, line.at(-1) ?? 1] as const;
  return { width, height, d: ends(d), p: ends(p) };
}

/** Pixel of a point given as (D, P); y grows downwards. */
export function toPixel(frame: Frame, [d, p]: Point): Point {
  const share = (value: number, [from, to]: readonly [number, number]) => (value - from) / (to - from || 1);
  return [hundredths(share(d, frame.d) * frame.width), hundredths((1 - share(p, frame.p)) * frame.height)];
}
