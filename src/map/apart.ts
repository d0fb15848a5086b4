// Stable P ranges apart from the one that counts: slivers below it, islands above it. They are reported, but no tune is placed there.
import type { AxisMap } from "./format.js";
import { endText } from "./gain-text.js";
import type { OwnScale } from "./own-scale.js";

/** Display units; null: the grid's edge. */
export interface ApartRange {
  readonly d: number;
  readonly from: number | null;
  readonly to: number | null;
  /** Whether it lies below the range that counts: a pilot who climbs meets it first. */
  readonly below: boolean;
}

/** By rising D, then P. */
export const apartOf = ({ boundary }: Pick<AxisMap, "boundary">): ApartRange[] =>
  boundary.sustained.flatMap(({ d, from: lower, otherRanges = [] }) =>
    otherRanges.map(([from, to]) => ({ d, from, to, below: to !== null && lower !== undefined && to <= lower })),
  );

/** "D 2, P 2 to 3.2", edges of the grid put in. */
export function apartWords(own: OwnScale | null, { d, from, to }: ApartRange, p: readonly number[]): string {
  const [bottom, top] = [p[0] ?? 0, p[p.length - 1] ?? 0];
  const [least, most] = [from ?? bottom, to ?? top].map((end) => endText(own, "p", end));
  return `D ${endText(own, "d", d)}, P ${least} to ${most}`;
}
