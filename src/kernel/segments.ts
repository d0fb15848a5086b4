// A trial cut into segments that need different terms: most of it is in still air, and few scripts need sums.
import { SEGMENT_COUNTS, type SegmentKind } from "../base/vector-layout.js";

/** The counts of a kind in the order in which the loop takes them. */
export const countsOfKind = (kind: SegmentKind): readonly [disturbed: 0 | 1, accumulate: 0 | 1] => {
  const { disturbed, accumulate } = SEGMENT_COUNTS[kind];
  return [disturbed, accumulate];
};

/** Control periods, `to` exclusive. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Segment extends Span {
  readonly kind: SegmentKind;
}

/** Segments of a trial of `steps` control periods whose air is `disturbed` in a span; none lies across an end of `window`. */
export function segmentsOf(steps: number, disturbed: Span, window: Span, accumulate: boolean): Segment[] {
  const cuts = [...new Set([0, window.from, window.to, disturbed.from, disturbed.to, steps])].sort((a, b) => a - b);
  return cuts.slice(1).map((to, i): Segment => {
    const from = cuts[i];
    if (accumulate && isWithin({ from, to }, window)) return { from, to, kind: "accumulated" };
    return { from, to, kind: isWithin({ from, to }, disturbed) ? "disturbed" : "still" };
  });
}

export const isWithin = (inner: Span, outer: Span): boolean => outer.from <= inner.from && inner.to <= outer.to;
