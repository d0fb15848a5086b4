// What gains are multiplied by over throttle.
import type { Airframe, GainFactors } from "./airframe.js";
import { rowsAround } from "./throttle-rows.js";

const ONES: GainFactors = Object.freeze({ p: 1, i: 1, d: 1 });

/** At a collective duty (fraction); ones where the model schedules no gains. */
export function gainFactorsAt({ controller: { gainSchedule: rows } }: Airframe, throttle: number): GainFactors {
  const around = rows === undefined ? null : rowsAround(rows, throttle);
  if (around === null) return ONES;
  const [before, after, share] = around;
  const factor = (key: keyof GainFactors) => before[key] + share * (after[key] - before[key]);
  return { p: factor("p"), i: factor("i"), d: factor("d") };
}
