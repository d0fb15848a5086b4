// The coloured ground of a map: each verdict's area under its mark, the milder first, so that every graver set covers
// the milder one at the border they share.
import { VERDICTS, type Verdict } from "../base/measures.js";
import { type GroundAxis, type GroundMap, verdictCrossing } from "./crossings.js";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { filled, type Layer, strokedPixels } from "./layers.js";
import { offFrame } from "./lines.js";
import { MARK_STROKES, marksOver } from "./marks.js";
import { rings } from "./rings.js";

export interface Terrain {
  /** Outline of all points at least as grave as a verdict. */
  readonly atLeast: Readonly<Record<Verdict, readonly Polyline[]>>;
  readonly safe: readonly Polyline[];
}

export function terrainOf(map: GroundMap, axis: GroundAxis): Terrain {
  const crossing = verdictCrossing(map, axis);
  const rank = (i: number, j: number) => VERDICTS.indexOf(axis.verdict[i]?.[j] ?? "clean");
  const atLeast = (verdict: Verdict) => rings(axis.grid, (i, j) => rank(i, j) <= VERDICTS.indexOf(verdict), crossing);
  return {
    atLeast: Object.fromEntries(VERDICTS.map((v) => [v, atLeast(v)])) as unknown as Terrain["atLeast"],
    safe: rings(axis.grid, (i, j) => axis.safe[i]?.[j] === true, crossing),
  };
}

/** Marks of a verdict over an outline less the outlines of what lies on top of it. */
export function marked(frame: Frame, verdict: Verdict, outline: readonly Polyline[], less: readonly Polyline[]): Layer {
  const rings = [...outline, ...less].map((ring) => ring.map((point) => toPixel(frame, point)));
  return strokedPixels(marksOver({ ...frame, rings }, verdict), MARK_STROKES[verdict]);
}

/** The ground in colours and marks, from clean to sustained. */
export function ground(frame: Frame, { atLeast, safe }: Terrain): Layer[] {
  const mildFirst = [...VERDICTS].reverse();
  return mildFirst.flatMap((verdict, k) => {
    const graver = mildFirst[k + 1];
    const above = [...(graver === undefined ? [] : atLeast[graver]), ...(verdict === "clean" ? safe : [])];
    return [
      filled(frame, atLeast[verdict], ink(verdict)),
      ...(verdict === "clean" ? [filled(frame, safe, ink("safe"))] : []),
      marked(frame, verdict, atLeast[verdict], above),
    ];
  });
}

/** The outline of a set without the stretches along the frame. */
export function innerOutline(frame: Frame, outline: readonly Polyline[]): Polyline[] {
  const along = (k: 0 | 1, ends: readonly [number, number], a: Point, b: Point) =>
    a[k] === b[k] && (a[k] === ends[0] || a[k] === ends[1]);
  const onFrame = (a: Point, b: Point) => along(0, frame.d, a, b) || along(1, frame.p, a, b);
  return outline.flatMap((ring) => offFrame(ring, onFrame));
}
