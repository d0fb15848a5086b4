// What the pictures of a fit share: axes with ticks of their own, linear or of ratios, and lines kept within the frame.
import { canonicalJson } from "../../base/canonical.js";
import { ln } from "../../base/elementary.js";
import { toThreeDigits } from "../../words/numbers.js";
import type { Frame, Point, Polyline } from "../frame.js";
import type { Layer } from "../layers.js";

export interface Tick {
  readonly at: number;
  readonly text: string;
}

export interface PlotAxis {
  /** "": none is written. */
  readonly title: string;
  readonly ticks: readonly Tick[];
}

/** Room left of a plot, px, so that plots above each other stand in line. */
const LABELS = 34;

/** A layer that shows nothing itself and carries both axes. */
export function plotAxes(frame: Frame, across: PlotAxis, up: PlotAxis): Layer {
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
        axis: axis(up, { minExtent: LABELS, maxExtent: LABELS }),
      },
    },
  } as Layer;
}

/** Where a value stands on an axis of ratios: its logarithm. */
export const onRatios = (value: number): number => ln(value) / Math.LN10;

const STEPS = Object.freeze([1, 2, 5]);
const FINER_STEPS = Object.freeze([1, 2, 3, 4, 6, 8]);

/** 1, 2, 5, 10, ... between two values, at their place on an axis of ratios; more of them where the two are near. */
export function ratioTicks(from: number, to: number): Tick[] {
  const ticks: Tick[] = [];
  const steps = to / from < 10 ? FINER_STEPS : STEPS;
  for (let decade = 1e-6; decade <= 1e6; decade *= 10)
    for (const step of steps) {
      const value = Number((step * decade).toPrecision(6));
      if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9))
        ticks.push({ at: onRatios(value), text: toThreeDigits(value) });
    }
  return ticks;
}

/** Round values between two, at most so many. */
export function evenTicks(from: number, to: number, most: number): Tick[] {
  const least = (to - from) / most;
  const decade = 10 ** Math.floor(onRatios(least) + 1e-9);
  const step = [1, 2, 5, 10].map((one) => one * decade).find((one) => one >= least * (1 - 1e-9)) ?? 10 * decade;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => {
    const at = Number(((first + k) * step).toPrecision(12));
    return { at, text: toThreeDigits(at) };
  });
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
