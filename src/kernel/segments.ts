// A trial cut into segments that need different terms: most of it is in still air, and few scripts need sums.
/** Terms of the loop: neither climb nor gusts nor wash; all of them; all of them and the accumulated sums. */
export type SegmentKind = "still" | "disturbed" | "accumulated";

/** The counts `disturbed` and `accumulate` of the loop. */
export const FLAGS: Readonly<Record<SegmentKind, readonly [disturbed: 0 | 1, accumulate: 0 | 1]>> = {
  still: [0, 0],
  disturbed: [1, 0],
  accumulated: [1, 1],
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
