// The few kinds of layer our figures are made of. Shapes are given in pixels, and vega-lite draws them through an
// identity projection; axes and labels go through its ordinary scales.

import type { TopLevelSpec } from "vega-lite";
import { simplify } from "../base/simplify.js";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import { ink, type Role } from "./ink.js";
import type { Label } from "./placement.js";
import { tenths } from "./rounding.js";

export type Layer = Extract<TopLevelSpec, { layer: unknown }>["layer"][number];

interface Stroke {
  readonly role: Role;
  readonly width: number; // px
  readonly dash?: readonly number[];
}

const dashed = (dash: readonly number[] | undefined) => (dash === undefined ? {} : { strokeDash: [...dash] });

/** A GeoJSON shape in pixels as a layer. */
export function geometry(shape: object, mark: object): Layer {
  return {
    data: { values: [{ type: "Feature", properties: {}, geometry: shape }] },
    projection: { type: "identity", scale: 1, translate: [0, 0] }, // as given: never fitted to the plot
    mark: { type: "geoshape", clip: false, strokeJoin: "round", ...mark },
  } as Layer;
}

/** Rings of (D, P) filled as one shape, holes left open. */
export function filled(frame: Frame, shape: readonly Polyline[], fill: string, opacity?: number): Layer {
  const closed = shape.map((ring) => drawn(frame, [...ring, ...ring.slice(0, 1)]));
  const through = opacity === undefined ? {} : { fillOpacity: opacity };
  return geometry({ type: "Polygon", coordinates: closed }, { fill, stroke: null, ...through });
}

/** Polylines of (D, P). */
export function stroked(frame: Frame, lines: readonly Polyline[], stroke: Stroke): Layer {
  return strokedPixels(
    lines.map((line) => drawn(frame, line)),
    stroke,
  );
}

const VISIBLE_SHIFT = 0.25; // px, a shift too small to see

/** A polyline of (D, P) as it is drawn. */
const drawn = (frame: Frame, line: Polyline): Point[] =>
  simplify(
    line.map((point) => toPixel(frame, point)),
    [VISIBLE_SHIFT, VISIBLE_SHIFT],
  ).map(([x, y]) => [tenths(x), tenths(y)]);

/** Polylines in pixels. */
export function strokedPixels(lines: readonly Polyline[], { role, width, dash }: Stroke): Layer {
  const mark = {
    filled: false,
    fill: null,
    stroke: ink(role),
    strokeWidth: width,
    strokeCap: "round",
    ...dashed(dash),
  };
  return geometry({ type: "MultiLineString", coordinates: lines }, mark);
}

interface Lettering {
  readonly size: number; // px
  readonly role: Role;
  /** What the letters stand on: drawn around them so that marks below do not touch them. */
  readonly halo: Role;
  readonly italic?: boolean;
  readonly bold?: boolean;
  /** Width of the halo, px; a wide one breaks the line a label is set into. */
  readonly gap?: number;
}

/** Labels set about their centres. */
export function lettered(labels: readonly Label[], { size, role, halo, italic, bold, gap = 3.4 }: Lettering): Layer[] {
  const style = { fontSize: size, fill: ink(role), stroke: ink(halo), strokeWidth: gap, strokeJoin: "round" } as const;
  return labels.map(({ text, at: [x, y] }) => ({
    data: { values: [{}] },
    mark: {
      type: "text",
      text,
      align: "center",
      baseline: "middle",
      ...style,
      ...(italic === true ? { fontStyle: "italic" } : {}),
      ...(bold === true ? { fontWeight: "bold" } : {}),
    },
    encoding: { x: { value: x }, y: { value: y } },
  }));
}
