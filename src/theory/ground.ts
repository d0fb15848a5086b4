// Ground that several loops have in common: the same gains serve every throttle level and condition.
import type { AxisGains } from "../airframe/airframe.js";
import { ln } from "../base/elementary.js";
import { type Range, stableIntervals } from "./boundary.js";
import type { LoopPieces } from "./pieces.js";

/** The range of P, of those within `range`, in which every loop is stable: the widest as a factor; null where none is. */
export function commonStable(loops: readonly LoopPieces[], { d, i }: Omit<AxisGains, "p">, range: Range): Range | null {
  let common: Range[] = [range];
  for (const loop of loops) {
    const stable = common.length === 0 ? [] : stableIntervals(loop, d, i, range);
    common = common.flatMap((one) =>
      stable
        .map(({ from, to }) => ({ from: Math.max(one.from, from), to: Math.min(one.to, to) }))
        .filter(({ from, to }) => from < to),
    );
  }
  const width = ({ from, to }: Range) => ln(to / from);
  return common.reduce<Range | null>(
    (widest, one) => (widest === null || width(one) > width(widest) ? one : widest),
    null,
  );
}

const FAR = 64; // factor of P within which an end is looked for

/** The P at which the first of the loops gives out with the D and I of these gains; null: nowhere near. */
export function endAbove(loops: readonly LoopPieces[], { p, i, d }: AxisGains): number | null {
  const range = { from: p / FAR, to: p * FAR };
  const end = commonStable(loops, { d, i }, range)?.to ?? null;
  return end === range.to ? null : end;
}
