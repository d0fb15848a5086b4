// One tune in many draws, with every manoeuvre simulated: how often it is safe, and what forbids it where it is not.
import { at } from "../base/at.js";
import { MEASURES } from "../base/measures.js";
import { type Ask, sustains } from "../map/trials.js";
import { type Limits, slack } from "../map/verdict.js";
import { worstPoint } from "../map/worst.js";
import type { Variant } from "../plan/plan.js";
import type { DrawTheory } from "./draw-theory.js";

export interface Tune {
  readonly p: number;
  readonly d: number;
}

/** Per draw from `first` of the plan on: what forbids the tune, null where nothing does. */
export async function failuresAt(
  tune: Tune,
  {
    variants,
    theory,
    first,
    limits,
    ask,
  }: {
    readonly variants: readonly Variant[];
    readonly theory: readonly DrawTheory[];
    readonly first: number;
    readonly limits: Limits;
    readonly ask: Ask;
  },
): Promise<(string | null)[]> {
  const { p, d } = tune;
  const requests = theory.flatMap((_, k) => variants.map(({ index }) => ({ variant: index, p, d, draw: first + k })));
  const table = await ask(requests);
  return theory.map(({ hasMargins }, k) => {
    const rows = variants.map(({ index }, place) => ({ variant: index, table, row: k * variants.length + place }));
    if (rows.some(({ row }) => sustains(table, row))) return "sustained oscillation";
    const worst = worstPoint(rows);
    const rooms = MEASURES.flatMap((measure) => {
      const room = measure.argues === null ? null : slack(measure, worst[measure.id], limits[measure.id]);
      return room === null ? [] : [{ title: measure.title, room }];
    });
    const [least] = rooms.sort((one, other) => one.room - other.room);
    if (least !== undefined && least.room < 0) return least.title;
    return hasMargins(p, d) ? null : "margins";
  });
}

/** The share of the tune's draws without a failure. */
export const safeIn = (failures: readonly (string | null)[]): number =>
  failures.filter((failure) => failure === null).length;

/** The k-th of the values in rising order, absent ones last, at this share of all. */
export function quantileOf(values: readonly (number | null)[], share: number): number | null {
  const rising = values.map((value) => value ?? Number.POSITIVE_INFINITY).sort((one, other) => one - other);
  const value = at(rising, Math.min(rising.length - 1, Math.floor(share * rising.length)));
  return Number.isFinite(value) ? value : null;
}
