// The draws of a run: models drawn from the spreads, each with its plan, and what theory says of them.
import { type Draws, drawsOf } from "../airframe/draws.js";
import { at } from "../base/at.js";
import type { Document } from "../base/document.js";
import { problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { axisConfidence, type DrawSets } from "../confidence/axis-confidence.js";
import { type DrawTheory, drawTheory } from "../confidence/draw-theory.js";
import { bindingPlaces, placesOf } from "../confidence/places.js";
import { WORTH_DRAWS } from "../confidence/worth.js";
import type { AxisDraws, AxisFound, AxisReduction, ConfidentAxis } from "../map/axis.js";
import type { Uncertainty } from "../map/confidence-format.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import type { StabilityMap } from "../map/format.js";
import { drawnPlanOf } from "../plan/draws.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";

/** The plan with its draws, and how they are judged. */
export interface DrawnRun {
  /** With the plans of all draws: first those that choose the start, then those that judge it. */
  readonly plan: Plan;
  /** Those that judge the start. */
  readonly draws: Draws;
  /** How many choose it. */
  readonly chosen: number;
  /** Whose spreads they are drawn from. */
  readonly model: Document;
}

/** Draws that did not choose the start, at least: a share of fewer says little. */
const LEAST_JUDGING = 64;
/** Share of draws that no craft can have, above which the spreads are refused. */
const MOST_REDRAWN = 0.05;

/** Numbers whose spread decides: without one of each a share would promise what it cannot know. */
const NEEDED: readonly (readonly [title: string, keys: RegExp])[] = [
  ["masses or inertia of the frame", /^frame\./],
  ["propeller.ct", /^propeller\.ct$/],
  ["motor.resistance", /^motor\.resistance$/],
  ["propeller.inertia or motor.bell_inertia", /^(propeller\.inertia|motor\.bell_inertia)$/],
  ["controller.latency", /^controller\.latency$/],
];

/** Why draws would say nothing of this model; null where they would. */
function missingSpreads({ airframe }: Plan): string | null {
  const keys = airframe.spreads?.map(({ key }) => key) ?? [];
  const missing = NEEDED.filter(([, needed]) => !keys.some((key) => needed.test(key))).map(([title]) => title);
  return missing.length === 0
    ? null
    : `the model does not say how far these may be off: ${missing.join("; ")}. Write ± beside them, as in "75 mohm ± 20 %".`;
}

/**
 * Null where the sweep asks for none, or the model says too little. InputError where too many draws are craft that cannot
 * be.
 */
export function drawnRun(plan: Plan, model: Document | undefined): DrawnRun | null {
  const { uncertainty, seed } = plan.sweep;
  if (model === undefined || uncertainty === undefined || missingSpreads(plan) !== null) return null;
  const chosen = uncertainty.draws;
  const plans: Plan[] = [];
  const made = (purpose: string, count: number): Draws => {
    const draws = drawsOf(model, { count, seed, purpose, loopGain: uncertainty.loopGain }, (one) => {
      const drawn = drawnPlanOf(plan, one);
      if (drawn !== null) plans.push(drawn);
      return drawn === null;
    });
    if (draws.redrawn <= MOST_REDRAWN * count) return draws;
    throw new InputError([
      problemAt(
        model,
        [],
        `${draws.redrawn} of ${count + draws.redrawn} draws from its spreads cannot be or cannot hover; expected at most 5 of 100. Narrow the widest spreads`,
      ),
    ]);
  };
  const first = made("map", chosen);
  const judging = made("start", Math.max(LEAST_JUDGING, chosen));
  const redrawn = first.redrawn + judging.redrawn;
  return { plan: { ...plan, draws: plans }, draws: { ...judging, redrawn }, chosen, model };
}

type DrawJudge = (found: AxisFound) => Promise<ConfidentAxis>;

/** What judges the draws of each axis as it is reduced; nothing where there are none. */
export async function drawJudges(
  drawn: DrawnRun | null,
  yieldIfDue: () => Promise<void>,
): Promise<Readonly<Partial<Record<Axis, DrawJudge>>>> {
  if (drawn === null) return {};
  const sets = await drawSets(drawn, yieldIfDue);
  return {
    roll: (found) => axisConfidence(found, sets.roll),
    pitch: (found) => axisConfidence(found, sets.pitch),
  };
}

/** What theory says of the draws of each axis; made once. */
async function drawSets(
  { plan, chosen, model }: DrawnRun,
  yieldIfDue: () => Promise<void>,
): Promise<Readonly<Record<Axis, DrawSets>>> {
  const places = placesOf(plan);
  const theories = async (plans: readonly Plan[], at = places) => {
    const made: Readonly<Record<Axis, DrawTheory>>[] = [];
    for (const one of plans) {
      await yieldIfDue();
      made.push(drawTheory(one, at));
    }
    return made;
  };
  const all = await theories(plan.draws ?? []);
  const nominal = drawTheory(plan, places);
  const worth = once(async () => {
    const { seed, uncertainty } = plan.sweep;
    const plans: Plan[] = [];
    const draws = drawsOf(
      model,
      { count: WORTH_DRAWS, seed, purpose: "worth", loopGain: uncertainty?.loopGain ?? 0 },
      (one) => {
        const drawn = drawnPlanOf(plan, one, () => false);
        if (drawn !== null) plans.push(drawn);
        return drawn === null;
      },
    );
    return { draws, theories: await theories(plans, bindingPlaces(plan, places)) };
  });
  const of = (axis: Axis): DrawSets => {
    const each = all.map((theory) => theory[axis]);
    return {
      chosen: each.slice(0, chosen),
      judging: each.slice(chosen),
      nominal: nominal[axis],
      worth: async () => {
        const { draws, theories } = await worth();
        return { draws, theory: theories.map((theory) => theory[axis]) };
      },
    };
  };
  return { roll: of("roll"), pitch: of("pitch") };
}

function once<T>(make: () => Promise<T>): () => Promise<T> {
  let made: Promise<T> | null = null;
  return () => {
    made ??= make();
    return made;
  };
}

/** The map with its draws, or with the reason why there are none although the sweep asks for them. */
export function withUncertainty(
  map: StabilityMap,
  plan: Plan,
  drawn: DrawnRun | null,
  [roll, pitch]: readonly [AxisReduction, AxisReduction],
): StabilityMap {
  if (drawn !== null && roll.draws !== undefined && pitch.draws !== undefined)
    return { ...map, uncertainty: uncertaintyOf(drawn, roll.draws, pitch.draws) };
  const reason = plan.sweep.uncertainty === undefined ? null : missingSpreads(plan);
  return reason === null ? map : { ...map, uncertaintyReason: reason };
}

function uncertaintyOf({ plan, draws, chosen }: DrawnRun, roll: AxisDraws, pitch: AxisDraws): Uncertainty {
  return {
    confidence: plan.sweep.uncertainty?.confidence ?? 1,
    pointDraws: chosen,
    spreads: draws.spreads.map(({ key, nominal, law, size }) => ({ key, nominal, law, size })),
    redrawn: draws.redrawn,
    draws: draws.draws.map(({ values }, k) => ({
      values: values.map(roundToTwelveDigits),
      roll: at(roll, k),
      pitch: at(pitch, k),
    })),
  };
}
