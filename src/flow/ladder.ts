// The planned climb simulated step by step, so that a pilot knows beforehand what each flight should show; the
// first steps with gentler manoeuvres than the sweep's.
import { at } from "../base/at.js";
import { MEASURES, type MeasureId } from "../base/measures.js";
import { LADDER_KINDS, type LadderKind, ladderRow } from "../base/script-kinds.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import { scheduleOf } from "../kernel/schedule.js";
import { type ClimbStep, climbOf, type Rung } from "../map/climb.js";
import { limitingCaseOf, roundToTwelveDigits } from "../map/display-units.js";
import type { StabilityMap } from "../map/format.js";
import type { LadderManoeuvre, LadderStep, LadderTrial, LadderTune } from "../map/ladder-format.js";
import { milderVariant } from "../plan/milder.js";
import type { Plan, Variant } from "../plan/plan.js";
import { withChosenGains } from "../strips/chosen.js";
import type { Axis } from "../sweep/sweep.js";
import { mostRevealing, sameUnder, steadyHover } from "./manoeuvres.js";
import { type TracedTrial, type TracedTrials, tracedTrials } from "./traced-trials.js";

const CLIMBING = LADDER_KINDS.filter((kind) => ladderRow(kind).everyStep);

/**
 * The map with the climb to its starting tunes, every step simulated with yaw's P and I as its strips say to take them; unchanged
 * where no axis has one.
 */
export function withLadder(asWritten: Plan, map: StabilityMap): StabilityMap {
  const plan = withChosenGains(asWritten, map.strips);
  const climb = climbOf(map.axes);
  const top = climb.at(-1)?.rungs;
  if (top === undefined) return map;
  const charges = plan.conditions.map(({ condition }) => condition.charge);
  const [fresh, tired] = [charges.indexOf(Math.max(...charges)), charges.indexOf(Math.min(...charges))];
  const build = ladderBuild(plan, fresh, top);
  const requests: StepRequest[] = [
    ...climb.map((step) => ({ ...step, condition: fresh, kinds: CLIMBING })),
    ...LADDER_KINDS.map((kind) => ({ stage: "check" as const, rungs: top, condition: tired, kinds: [kind], share: 1 })),
  ];
  const steps = requests.map((order) => simulatedStep(build, order)).filter(({ axes }) => Object.keys(axes).length > 0);
  return { ...map, ladder: { manoeuvres: build.manoeuvres, steps } };
}

/** One step to simulate: which manoeuvres, at which gains, on which pack. */
interface StepRequest extends Pick<LadderStep, "stage">, Pick<ClimbStep, "rungs" | "share"> {
  readonly condition: number;
  readonly kinds: readonly LadderKind[];
}

/** What the steps are made from, and the manoeuvres used so far. */
interface LadderBuild {
  readonly plan: Plan;
  readonly trials: TracedTrials;
  /** The variant that shows a kind best on an axis. */
  readonly best: (axis: Axis, kind: LadderKind) => Variant | null;
  readonly manoeuvres: LadderManoeuvre[];
  /** The variant with so much of its manoeuvre; the same object every time, as its trials are set up once. */
  readonly milder: (variant: Variant, share: number) => Variant;
  readonly places: Map<Variant, number>; // to manoeuvre
}

function ladderBuild(plan: Plan, fresh: number, top: ClimbStep["rungs"]): LadderBuild {
  const trials = tracedTrials(plan);
  const chosen = new Map<string, Variant | null>();
  for (const [axis, rung] of rungsOf(top))
    for (const kind of LADDER_KINDS)
      chosen.set(`${axis} ${kind}`, mostRevealing(plan, trials, { axis, condition: fresh, kind }, si(rung)));
  const best = (axis: Axis, kind: LadderKind) => chosen.get(`${axis} ${kind}`) ?? null;
  return { plan, trials, best, milder: milderVariants(plan), manoeuvres: [], places: new Map() };
}

function milderVariants(plan: Plan): LadderBuild["milder"] {
  const made = new Map<string, Variant>();
  return (variant, share) => {
    const key = `${variant.index} ${share}`;
    const milder = made.get(key) ?? milderVariant(plan, variant, share);
    made.set(key, milder);
    return milder;
  };
}

const rungsOf = (rungs: ClimbStep["rungs"]) => Object.entries(rungs) as [Axis, Rung][];
const si = ({ p, d }: Rung) => ({ p: p * P_UNIT, d: d * D_UNIT });

function simulatedStep(build: LadderBuild, request: StepRequest): LadderStep {
  const tunes = rungsOf(request.rungs).map(([axis, rung]) => [axis, tuneOf(build, axis, rung, request)] as const);
  const { stage, condition } = request;
  return {
    stage,
    condition: at(build.plan.conditions, condition).condition.name,
    axes: Object.fromEntries(tunes.filter(([, tune]) => tune !== null)),
  };
}

/** Null where no manoeuvre is possible, or where an oscillation would not die out: no pilot is sent there. */
function tuneOf(
  build: LadderBuild,
  axis: Axis,
  rung: Rung,
  { condition, kinds, share }: StepRequest,
): LadderTune | null {
  const { plan, trials, best, milder } = build;
  const whole = kinds.flatMap((kind) => {
    const variant = best(axis, kind);
    return (variant === null ? null : sameUnder(plan, variant, condition)) ?? [];
  });
  const { p, d } = si(rung);
  const simulatedAs = (part: number) =>
    whole.map((one) => milder(one, part)).map((variant) => ({ variant, trial: trials.simulate(variant, p, d) }));
  const simulated = simulatedAs(share);
  // A pilot may fly harder than asked: the whole manoeuvre must die out as well.
  const judged = share === 1 ? simulated : [...simulated, ...simulatedAs(1)];
  if (judged.length === 0 || judged.some(({ trial }) => !trial.diesOut)) return null;
  const steady = steadyHover(plan, axis, condition);
  const noise = steady === null ? [] : [trials.simulate(steady, p, d)];
  const { scale } = plan.airframe.controller;
  return {
    ...rung,
    own: scale === null ? null : { p: roundToTwelveDigits(p / scale.p), d: roundToTwelveDigits(d / scale.d) },
    trials: simulated.map(({ variant, trial }): LadderTrial => {
      const { rate, angle } = trial;
      return { manoeuvre: manoeuvreOf(build, variant, share), rate, angle };
    }),
    measures: firstShowing([...simulated.map(({ trial }) => trial), ...noise]),
  };
}

/** Each measure from the first trial that shows it. */
function firstShowing(trials: readonly TracedTrial[]): LadderTune["measures"] {
  const value = (id: MeasureId) =>
    trials.map(({ measures }) => measures[id] ?? null).find((one) => one !== null) ?? null;
  return Object.fromEntries(MEASURES.map(({ id }) => [id, value(id)]));
}

function manoeuvreOf({ plan, trials, manoeuvres, places }: LadderBuild, variant: Variant, share: number): number {
  const existing = places.get(variant);
  if (existing !== undefined) return existing;
  const { script, axis } = variant;
  const kind = script.kind as LadderKind;
  const descent = roundToTwelveDigits(scheduleOf(plan, variant).descent.reduce((most, one) => Math.max(most, one), 0));
  places.set(variant, manoeuvres.length);
  const manoeuvre: LadderManoeuvre = {
    ...limitingCaseOf(plan, variant),
    kind,
    title: script.title,
    axis,
    ...(share === 1 ? {} : { share }),
    ...(descent === 0 ? {} : { descent }),
    ...trials.span(variant),
  };
  return manoeuvres.push(manoeuvre) - 1;
}
