// What the pictures of a fit share: axes with ticks of their own, and lines kept within the frame.
import { canonicalJson } from "../../base/canonical.js";
import type { Frame, Point, Polyline } from "../frame.js";
import type { Layer } from "../layers.js";
import type { Tick } from "../ticks.js";

export interface PlotAxis {
  /** "": none is written. */
  readonly title: string;
  readonly ticks: readonly Tick[];
}

/** Room left of a plot, px, so that plots above each other stand in line; of five digits, where a gain is the controller's own. */
export const LABELS = Object.freeze({ usual: 34, own: 44 });

/** A layer that shows nothing itself and carries both axes. */
export function plotAxes(frame: Frame, across: PlotAxis, up: PlotAxis, labels: number = LABELS.usual): Layer {
  const scale = (domain: readonly [number, number]) => ({ domain: [...domain], nice: false, zero: false });
  const axis = ({ title, ticks }: PlotAxis, more: object) => ({
    title: title === "" ? null : title,
    values: ticks.map(({ at }) => at),
    labelExpr: `${canonicalJson(ticks.map(({ text }) => text))}[indexof(${canonicalJson(ticks.map(({ at }) => at))}, datum.value)]`,
    labelOverlap: true,
    ...more,
  });
  return {
    data: { values: [{ x: frame.d[0], y: frame.p[0] }] },
    mark: { type: "point", opacity: 0 },
    encoding: {
      x: { field: "x", type: "quantitative", scale: scale(frame.d), axis: axis(across, {}) },
      y: {
        field: "y",
        type: "quantitative",
        scale: scale(frame.p),
        axis: axis(up, { minExtent: labels, maxExtent: labels }),
      },
    },
  } as Layer;
}

/** A line with what lies beyond the frame drawn along its edge. */
export function within({ d, p }: Frame, line: Polyline): Point[] {
  const held = (value: number, [from, to]: readonly [number, number]) => Math.min(to, Math.max(from, value));
  return line.map(([x, y]) => [held(x, d), held(y, p)] as const);
}

/** Two values that hold all others, with a share of room on either side. */
export function ends(values: readonly number[], room: number): readonly [number, number] {
  const low = values.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const high = values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  if (!(low <= high)) return [0, 1];
  const half = high > low ? room * (high - low) : Math.abs(high) * room + 1e-9;
  return [low - half, high + half];
}
