// One tune in many draws, with every manoeuvre simulated that comes near a limit: how often it is safe, and what forbids it
// where it is not.
import { at } from "../base/at.js";
import { type Ask, sustains } from "../map/trials.js";
import { type Limits, leastRoom } from "../map/verdict.js";
import { worstPoint } from "../map/worst.js";
import type { Variant } from "../plan/plan.js";
import type { DrawTheory } from "./draw-theory.js";

export interface Tune {
  readonly p: number;
  readonly d: number;
}

/** A manoeuvre with more room than this share of its limits, in the model as it is written, is not simulated in the draws. */
const AMPLE = 0.5;

export interface TuneInDraws {
  readonly variants: readonly Variant[];
  /** Of each draw. */
  readonly theory: readonly DrawTheory[];
  /** Index of the first of them among the plan's. */
  readonly first: number;
  readonly limits: Limits;
  readonly ask: Ask;
}

/** Per draw what forbids the tune; null where nothing does. */
export async function failuresAt(
  { p, d }: Tune,
  { variants, theory, first, limits, ask }: TuneInDraws,
): Promise<(string | null)[]> {
  const nominal = await ask(variants.map(({ index }) => ({ variant: index, p, d })));
  const near = variants.filter(({ index }, row) => {
    const least = leastRoom(worstPoint([{ variant: index, table: nominal, row }]), limits);
    return sustains(nominal, row) || (least !== null && least.room < AMPLE);
  });
  const requests = theory.flatMap((_, k) => near.map(({ index }) => ({ variant: index, p, d, draw: first + k })));
  const table = await ask(requests);
  return theory.map(({ haveMargins }, k) => {
    const rows = near.map(({ index }, place) => ({ variant: index, table, row: k * near.length + place }));
    if (rows.some(({ row }) => sustains(table, row))) return "sustained oscillation";
    const least = rows.length === 0 ? null : leastRoom(worstPoint(rows), limits);
    if (least !== null && least.room < 0) return least.measure.title;
    return haveMargins([[p, d]])[0] === 1 ? null : "margins";
  });
}

/** How many of the draws have no failure. */
export const safeIn = (failures: readonly (string | null)[]): number =>
  failures.filter((failure) => failure === null).length;

/** The k-th of the values in rising order, absent ones last, at this share of all. */
export function quantileOf(values: readonly (number | null)[], share: number): number | null {
  const rising = values.map((value) => value ?? Number.POSITIVE_INFINITY).sort((one, other) => one - other);
  const value = at(rising, Math.min(rising.length - 1, Math.floor(share * rising.length)));
  return Number.isFinite(value) ? value : null;
}
