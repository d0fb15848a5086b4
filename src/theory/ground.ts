// Ground that several loops have in common: the same gains serve every throttle level and condition.
import type { AxisGains } from "../airframe/airframe.js";
import { ln } from "../base/elementary.js";
import { type Range, stableIntervals } from "./boundary.js";
import { marginsOf } from "./margins.js";
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

/** Gain up and down in dB, phase in rad. */
export interface WantedMargins {
  readonly gain: number;
  readonly phase: number;
}

/** Whether every loop keeps the margins at these gains; the rest is not looked at once one does not. */
export function keepsMargins(loops: readonly LoopPieces[], gains: AxisGains, wanted: WantedMargins): boolean {
  const degrees = (180 / Math.PI) * wanted.phase;
  return loops.every((loop) => {
    const { stable, gainUp, gainDown, phase } = marginsOf(loop, gains);
    const keeps = (margin: number | null, least: number) => margin === null || margin >= least;
    return stable && keeps(gainUp, wanted.gain) && keeps(gainDown, wanted.gain) && keeps(phase, degrees);
  });
}
