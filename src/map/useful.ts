// Which of several stable P ranges at one D counts. With much I, or on a fold, there are several: a sliver below,
// a useful range above, an oscillation between.
import { at } from "../base/at.js";
import { ln } from "../base/elementary.js";

interface Range {
  readonly from: number;
  readonly to: number;
}

/** Share of the widest range's width in log P from which on a range below it is no sliver. Ours, no source. */
const SUBSTANTIAL = 0.5;

/**
 * The ranges, rising, with the one that counts put first: the lowest of those at least half as wide, as a factor in P, as
 * the widest. A pilot climbs from below and meets a substantial range there first; a sliver holds no tune.
 */
export function usefulFirst<R extends Range>(ranges: readonly R[]): readonly R[] {
  if (ranges.length < 2) return ranges;
  const widths = ranges.map(({ from, to }) => ln(to / from));
  const widest = Math.max(...widths);
  const useful = Math.max(
    0,
    widths.findIndex((width) => width >= SUBSTANTIAL * widest),
  );
  return [at(ranges, useful), ...ranges.filter((_, k) => k !== useful)];
}
