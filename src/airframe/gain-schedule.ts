// What gains are multiplied by over throttle.
import type { Airframe, GainFactors } from "./airframe.js";

const ONES: GainFactors = Object.freeze({ p: 1, i: 1, d: 1 });

/** At a collective duty (fraction); ones where the model schedules no gains. */
export function gainFactorsAt({ controller: { gainSchedule: rows } }: Airframe, throttle: number): GainFactors {
  if (rows === undefined) return ONES;
  const next = rows.findIndex((row) => row.throttle > throttle);
  const after = rows[next] ?? rows[rows.length - 1];
  const before = rows[next - 1] ?? after;
  if (before === undefined || after === undefined) return ONES;
  const width = after.throttle - before.throttle;
  const share = width > 0 ? (throttle - before.throttle) / width : 0;
  const factor = (key: keyof GainFactors) => before[key] + share * (after[key] - before[key]);
  return { p: factor("p"), i: factor("i"), d: factor("d") };
}
