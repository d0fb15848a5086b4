// The few kinds of layer our figures are made of. Shapes are given in pixels, and vega-lite draws them through an
// identity projection; axes and labels go through its ordinary scales.
import type { TopLevelSpec } from "vega-lite";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import { ink, type Role } from "./ink.js";
import type { Label } from "./placement.js";

export type Layer = Extract<TopLevelSpec, { layer: unknown }>["layer"][number];

interface Stroke {
  readonly role: Role;
  readonly width: number; // px
  readonly dash?: readonly number[];
}

const dashed = (dash: readonly number[] | undefined) => (dash === undefined ? {} : { strokeDash: [...dash] });

function geometry(shape: object, mark: object): Layer {
  return {
    data: { values: [{ type: "Feature", properties: {}, geometry: shape }] },
    projection: { type: "identity" },
    mark: { type: "geoshape", clip: false, strokeJoin: "round", ...mark },
  } as Layer;
}

/** Rings of (D, P) filled as one shape, holes left open. */
export function filled(frame: Frame, shape: readonly Polyline[], fill: string): Layer {
  const closed = shape.map((ring) => [...ring, ring[0] as Point].map((point) => toPixel(frame, point)));
  return geometry({ type: "Polygon", coordinates: closed }, { fill, stroke: null });
}

/** Polylines of (D, P). */
export function stroked(frame: Frame, lines: readonly Polyline[], stroke: Stroke): Layer {
  return strokedPixels(lines.map((line) => line.map((point) => toPixel(frame, point))), stroke);
}

/** Polylines in pixels. */
export function strokedPixels(lines: readonly Polyline[], { role, width, dash }: Stroke): Layer {
  const mark = { filled: false, fill: null, stroke: ink(role), strokeWidth: width, strokeCap: "round", ...dashed(dash) };
  return geometry({ type: "MultiLineString", coordinates: lines }, mark);
}

export interface Lettering {
  readonly size: number; // px
  readonly role: Role;
  /** What the letters stand on: drawn around them so that marks below do not touch them. */
  readonly halo: Role;
  readonly italic?: boolean;
  readonly bold?: boolean;
}

/** Labels set about their centres. */
export function lettered(labels: readonly Label[], { size, role, halo, italic, bold }: Lettering): Layer[] {
  const style = { fontSize: size, fill: ink(role), stroke: ink(halo), strokeWidth: 4, strokeJoin: "round" } as const;
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

/** The frame line and, inside it, a tick at every grid line: where points were simulated. */
export function neatline(frame: Frame, lines: { readonly d: readonly number[]; readonly p: readonly number[] }): Layer[] {
  const { width, height } = frame;
  const TICK = 4;
  const across = lines.d.flatMap((d): Polyline[] => {
    const [x] = toPixel(frame, [d, 0]);
    return [[[x, 0], [x, TICK]], [[x, height], [x, height - TICK]]];
  });
  const up = lines.p.flatMap((p): Polyline[] => {
    const [, y] = toPixel(frame, [0, p]);
    return [[[0, y], [TICK, y]], [[width, y], [width - TICK, y]]];
  });
  const border: Polyline = [[0, 0], [width, 0], [width, height], [0, height], [0, 0]];
  return [strokedPixels([...across, ...up], { role: "ink", width: 0.6 }), strokedPixels([border], { role: "ink", width: 1.4 })];
}

/** A triangulation point: the mark of a surveyed place. */
export function surveyPoint(frame: Frame, at: Point, radius: number): Layer[] {
  const [x, y] = toPixel(frame, at);
  const corner = (k: number, r: number): Point => {
    const turn = (k * 2 * Math.PI) / 3;
    return [x + r * Math.sin(turn), y - r * Math.cos(turn)];
  };
  const triangle = (r: number): Point[] => [0, 1, 2].map((k) => corner(k, r));
  const outline = triangle(radius);
  return [
    geometry({ type: "Polygon", coordinates: [[...outline, outline[0]]] }, { fill: ink("sheet"), stroke: ink("sheet"), strokeWidth: 5 }),
    geometry({ type: "Polygon", coordinates: [[...outline, outline[0]]] }, { fill: ink("sheet"), stroke: ink("warn"), strokeWidth: 2.4 }),
    geometry({ type: "Polygon", coordinates: [[...triangle(radius * 0.34), corner(0, radius * 0.34)]] }, { fill: ink("warn"), stroke: null }),
  ];
}
