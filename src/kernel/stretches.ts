// A flight cut where what has to be reckoned with changes: most of it is flown in still air, and few scripts ask for sums.
/** What the loop reckons with: neither climb nor gusts nor wash; all of them; all of them and what is tallied. */
export type StretchKind = "still" | "stirred" | "tallied";

/** The counts `stirred` and `tally` of the loop. */
export const FLAGS: Readonly<Record<StretchKind, readonly [stirred: 0 | 1, tally: 0 | 1]>> = {
  still: [0, 0],
  stirred: [1, 0],
  tallied: [1, 1],
};

/** Control periods, `to` exclusive. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Stretch extends Span {
  readonly kind: StretchKind;
}

/** Stretches of so many control periods in air that is `stirred` in a span; none of them lies across an end of `window`. */
export function stretchesOf(steps: number, stirred: Span, window: Span, tally: boolean): Stretch[] {
  const cuts = [...new Set([0, window.from, window.to, stirred.from, stirred.to, steps])].sort((a, b) => a - b);
  return cuts.slice(1).map((to, i): Stretch => {
    const from = cuts[i];
    if (tally && isWithin({ from, to }, window)) return { from, to, kind: "tallied" };
    return { from, to, kind: isWithin({ from, to }, stirred) ? "stirred" : "still" };
  });
}

export const isWithin = (inner: Span, outer: Span): boolean => outer.from <= inner.from && inner.to <= outer.to;
