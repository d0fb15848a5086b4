// The draws of a run: models drawn from the spreads, each with its plan, and what theory says of them.
import { type DrawOptions, type Draws, drawingOf } from "../airframe/draws.js";
import { at } from "../base/at.js";
import { type Document, problemAt } from "../base/document.js";
import { runInTurns, runThrough } from "../base/halting-work.js";
import { InputError } from "../base/problem.js";
import { axisConfidence, type DrawSets } from "../confidence/axis-confidence.js";
import { drawTheory, type Gains } from "../confidence/draw-theory.js";
import { bindingPlaces, type LoopPlaces, loopPlaces } from "../confidence/places.js";
import type { SafeDraws } from "../confidence/safe-draws.js";
import { WORTH_DRAWS } from "../confidence/worth.js";
import type { AxisDraws, AxisFound, AxisReduction, ConfidentAxis } from "../map/axis.js";
import type { Uncertainty } from "../map/confidence-format.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import { drawnNumbers } from "../map/drawn-numbers.js";
import type { StabilityMap } from "../map/format.js";
import { drawnPlanOf } from "../plan/draws.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { drawTheories, marginsOfBoth } from "./draw-theories.js";

const AXES: readonly Axis[] = ["roll", "pitch"];

/** The draws of a run. */
export interface RunDraws {
  /** With the plans of all draws: first those that choose the start, then those that judge it. */
  readonly plan: Plan;
  readonly uncertainty: NonNullable<Plan["sweep"]["uncertainty"]>;
  /** Those that judge the start. */
  readonly judging: Draws;
  /** Draws of both kinds that no craft can have, drawn again. */
  readonly redrawn: number;
  /** Whose spreads they are drawn from. */
  readonly model: Document;
}

/** Draws that did not choose the start, at least: a share of fewer says little. */
const LEAST_JUDGING = 64;
/** How many draws judge the start, where so many choose it. */
export const judgingDraws = (choosing: number): number => Math.max(LEAST_JUDGING, choosing);
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

/** How many draws choose the start in a run of this plan: none where the model says too little. */
export const choosingDraws = (plan: Plan): number =>
  missingSpreads(plan) === null ? (plan.sweep.uncertainty?.draws ?? 0) : 0;

/**
 * Null where the sweep asks for none, or the model says too little. InputError where too many draws are craft that cannot
 * be.
 */
export function runDraws(plan: Plan, model: Document | undefined): RunDraws | null {
  const { uncertainty } = plan.sweep;
  if (model === undefined || uncertainty === undefined || missingSpreads(plan) !== null) return null;
  const { draws: count } = uncertainty;
  const plansOf = (set: DrawSet) => runThrough(planning(plan, model, set));
  const choosing = plansOf({ purpose: "map", count });
  const judging = plansOf({ purpose: "start", count: judgingDraws(count) });
  const redrawn = choosing.draws.redrawn + judging.draws.redrawn;
  const all = [...choosing.plans, ...judging.plans];
  if (redrawn > MOST_REDRAWN * all.length)
    throw new InputError([
      problemAt(
        model,
        [],
        `${redrawn} of ${all.length + redrawn} draws from its spreads cannot be or cannot hover; expected at most 5 of 100. Narrow the widest spreads`,
      ),
    ]);
  return { plan: { ...plan, draws: all }, uncertainty, judging: judging.draws, redrawn, model };
}

/** Draws of a model, each with its plan. */
interface PlannedDraws {
  readonly draws: Draws;
  readonly plans: readonly Plan[];
}

type DrawSet = Pick<DrawOptions, "purpose" | "count">;

/** Halts after each draw. `trimmed` as drawnPlanOf has it. */
function* planning(
  plan: Plan,
  model: Document,
  set: DrawSet,
  trimmed?: Parameters<typeof drawnPlanOf>[2],
): Generator<void, PlannedDraws> {
  const { seed, uncertainty } = plan.sweep;
  const plans: Plan[] = [];
  const draws = yield* drawingOf(model, { ...set, seed, loopGain: uncertainty?.loopGain ?? 0 }, (one) => {
    const own = drawnPlanOf(plan, one, trimmed);
    if (own !== null) plans.push(own);
    return own === null;
  });
  return { draws, plans };
}

/** What the draws that choose the start came to. */
export interface CountedDraws extends Readonly<Record<Axis, SafeDraws>> {
  readonly steps: number; // simulated control periods
}

type DrawJudge = (found: AxisFound) => Promise<ConfidentAxis>;

/**
 * What judges the draws of each axis as it is reduced; nothing where there are none. `counts`: what other machines found of those
 * that choose the start.
 */
export async function drawJudges(
  draws: RunDraws | null,
  yieldIfDue: () => Promise<void>,
  counts: CountedDraws | null = null,
): Promise<Readonly<Partial<Record<Axis, DrawJudge>>>> {
  if (draws === null) return {};
  const sets = await drawSets(draws, yieldIfDue);
  const of = (axis: Axis) => (counts === null ? sets[axis] : { ...sets[axis], counts: counts[axis] });
  return {
    roll: (found) => axisConfidence(found, of("roll")),
    pitch: (found) => axisConfidence(found, of("pitch")),
  };
}

/** What theory says of the draws of each axis; made once. */
async function drawSets(
  { plan, model, uncertainty }: RunDraws,
  yieldIfDue: () => Promise<void>,
): Promise<Readonly<Record<Axis, DrawSets>>> {
  const places = loopPlaces(plan);
  const { grid } = plan.sweep;
  const all = drawTheories(plan.draws ?? [], places);
  for (const theory of all) {
    await yieldIfDue();
    // All of what a draw's pieces are certain to be asked for, while they are at hand.
    for (const axis of AXES) for (const d of grid[axis].d) theory[axis].boundary(d);
  }
  const nominal = drawTheory(plan, places);
  const worth = worthOfNumbers(plan, model, places, yieldIfDue);
  const of = (axis: Axis): DrawSets => {
    const each = all.map((theory) => theory[axis]);
    return {
      choosing: each.slice(0, uncertainty.draws),
      judging: each.slice(uncertainty.draws),
      confidence: uncertainty.confidence,
      nominal: nominal[axis],
      worth: (gains) => worth(axis, gains),
    };
  };
  return { roll: of("roll"), pitch: of("pitch") };
}

/** Draws for theory alone, and in which of them each gain of an axis has the margins; made when both axes have asked. */
function worthOfNumbers(
  plan: Plan,
  model: Document,
  places: LoopPlaces,
  yieldIfDue: () => Promise<void>,
): (axis: Axis, gains: readonly Gains[]) => ReturnType<DrawSets["worth"]> {
  const set = { purpose: "worth", count: WORTH_DRAWS } as const;
  const noTrials = () => false;
  const worthDraws = once(() => runInTurns(planning(plan, model, set, noTrials), yieldIfDue));
  const margins = marginsOfBoth(async (gains) => {
    const safe = { roll: [] as Uint8Array[], pitch: [] as Uint8Array[] };
    if (AXES.every((axis) => gains[axis].length === 0)) return safe;
    const binding = bindingPlaces(plan, places);
    for (const one of (await worthDraws()).plans) {
      await yieldIfDue();
      const theory = drawTheory(one, binding);
      for (const axis of AXES) safe[axis].push(theory[axis].haveMargins(gains[axis]));
    }
    return safe;
  });
  return async (axis, gains) => ({ safe: await margins(axis, gains), draws: async () => (await worthDraws()).draws });
}

function once<T>(make: () => T): () => T {
  let result: { readonly value: T } | null = null;
  return () => {
    result ??= { value: make() };
    return result.value;
  };
}

/** The map with its draws, or with the reason why there are none although the sweep asks for them. */
export function withUncertainty(
  map: StabilityMap,
  plan: Plan,
  draws: RunDraws | null,
  [roll, pitch]: readonly [AxisReduction, AxisReduction],
): StabilityMap {
  if (draws !== null && roll.draws !== undefined && pitch.draws !== undefined)
    return { ...map, uncertainty: { ...uncertaintyOf(draws, roll.draws, pitch.draws), ...numbersOf(plan, draws) } };
  const reason = plan.sweep.uncertainty === undefined ? null : missingSpreads(plan);
  return reason === null ? map : { ...map, uncertaintyReason: reason };
}

/** Of the draws that judge the start: those the map names. */
function numbersOf(plan: Plan, { plan: { draws = [] }, uncertainty }: RunDraws): Pick<Uncertainty, "numbers"> {
  const numbers = drawnNumbers(plan, draws.slice(uncertainty.draws));
  return numbers === null ? {} : { numbers };
}

function uncertaintyOf({ uncertainty, judging, redrawn }: RunDraws, roll: AxisDraws, pitch: AxisDraws): Uncertainty {
  return {
    confidence: uncertainty.confidence,
    pointDraws: uncertainty.draws,
    spreads: judging.spreads.map(({ key, nominal, law, size }) => ({ key, nominal, law, size })),
    redrawn,
    draws: judging.draws.map(({ values }, k) => ({
      values: values.map(roundToTwelveDigits),
      roll: at(roll, k),
      pitch: at(pitch, k),
    })),
  };
}
