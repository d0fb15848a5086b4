// Why an axis has no starting tune, found by taking away one thing after the other and looking for a safe tune without it.
import type { Airframe } from "../airframe/airframe.js";
import type { AxisReduction } from "../map/axis.js";
import { toDisplayD, toDisplayP } from "../map/display-units.js";
import { nearestToSafe } from "../map/field.js";
import { settingText } from "../map/gain-text.js";
import { axisTheory } from "../map/margins.js";
import { perDisplayUnit } from "../map/own-scale.js";
import type { StartCause } from "../map/start-cause.js";
import type { Ask } from "../map/trials.js";
import { type Plan, planSweep } from "../plan/plan.js";
import { offCentre } from "../sheet/frame-doubts.js";
import { sheetOf } from "../sheet/sheet.js";
import type { Axis } from "../sweep/sweep.js";
import { MENDS, type Mend, type MendKey } from "./mends.js";
import { COMFORTABLE, findSafeTune, type Tune } from "./search.js";
import { causeWords } from "./words.js";

/** How the trials of a changed plan are simulated. */
export type AskOf = (plan: Plan) => Ask;

/**
 * Changes with which the axis has a safe tune, each alone: those whose number looks unlikely first, then the mildest. Empty where
 * no single change is enough.
 */
export async function startCauses(
  plan: Plan,
  axis: Axis,
  { field }: Pick<AxisReduction, "field">,
  askOf: AskOf,
): Promise<StartCause[]> {
  const search: Search = { plan, axis, askOf, toBeat: nearestToSafe(field) };
  const found: Found[] = [];
  for (const [order, mend] of MENDS.entries()) {
    const mildest = await mildestChange(search, mend);
    if (mildest === null) continue;
    found.push({ ...mildest, mend, order });
    // a grid that misses safe ground says nothing against the craft
    if (mend.key === "grid") break;
  }
  const warnings = new Set(sheetOf(plan.airframe).warnings.map(({ key }) => key));
  const rank = ({ mend, order, mildness }: Found) => {
    const likely = isDoubtful(mend, plan.airframe, warnings) ? 0 : 1;
    return [likely, mildness, order] as const;
  };
  return found.sort((a, b) => compared(rank(a), rank(b))).map((one) => causeOf(plan, axis, one));
}

interface Change {
  readonly factor: number;
  /** 0: the first of the mend's factors was enough. */
  readonly mildness: number;
  readonly tune: Tune;
}

interface Found extends Change {
  readonly mend: Mend;
  readonly order: number;
}

interface Search {
  readonly plan: Plan;
  readonly axis: Axis;
  readonly askOf: AskOf;
  /** The best of the axis as it is. */
  readonly toBeat: Tune;
}

/** The strongest change is tried first: where even that finds nothing, the milder ones need not be tried. */
async function mildestChange(search: Search, mend: Mend): Promise<Change | null> {
  const strongest = mend.factors.length - 1;
  const found = await withChange(search, mend, strongest);
  if (found === null) return null;
  for (let mildness = 0; mildness < strongest; mildness++) {
    const milder = await withChange(search, mend, mildness);
    if (milder !== null && milder.tune.room >= COMFORTABLE) return milder;
  }
  return found;
}

async function withChange(
  { plan: { airframe, sweep }, axis, askOf, toBeat }: Search,
  mend: Mend,
  mildness: number,
): Promise<Change | null> {
  const factor = mend.factors[mildness] ?? 1;
  const question = mend.changed({ airframe, sweep }, axis, factor);
  if (question === null) return null;
  const plan = planSweep(question.airframe, question.sweep);
  if (!("variants" in plan)) return null;
  const variants = plan.variants.filter((variant) => variant.axis === axis);
  const theory = axisTheory(plan, axis, variants);
  const tune = await findSafeTune({ plan, variants, theory, ask: askOf(plan) }, axis, toBeat);
  return tune === null ? null : { factor, mildness, tune };
}

/** Keys of the sheet's warnings that speak of what a change takes away. */
const DOUBTS: Readonly<Partial<Record<MendKey, readonly string[]>>> = {
  "propeller.inertia": ["propeller.inertia", "motor.bell_inertia", "motor"],
  "frame.mass": ["frame"],
};

function isDoubtful({ key }: Mend, airframe: Airframe, warnings: ReadonlySet<string>): boolean {
  if (key === "frame") return offCentre(airframe) !== null;
  return (DOUBTS[key] ?? [key]).some((one) => warnings.has(one));
}

const compared = (a: readonly number[], b: readonly number[]): number =>
  a.map((value, k) => value - (b[k] ?? 0)).find((difference) => difference !== 0) ?? 0;

function causeOf(plan: Plan, axis: Axis, { mend, factor, tune }: Found): StartCause {
  const { cause, change, remedy } = causeWords(plan, mend.key, axis, factor);
  const own = perDisplayUnit(plan.airframe.controller.scale);
  const [p, d] = [toDisplayP(tune.p), toDisplayD(tune.d)];
  const place = `P ${settingText(own, "p", p)} and D ${settingText(own, "d", d)}`;
  return { key: mend.key, factor, p, d, text: `${cause}. ${change}, ${place} are safe: ${remedy}.` };
}
