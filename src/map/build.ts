// The reduced axes as map.json's plain data, in display units.
import { at } from "../base/at.js";
import { MEASURE_IDS, type MeasureId, measureOf } from "../base/measures.js";
import { I_UNIT } from "../base/units.js";
import type { Plan } from "../plan/plan.js";
import { STEP_SHARE } from "../plan/substeps.js";
import type { Axis } from "../sweep/sweep.js";
import type { AxisReduction } from "./axis.js";
import type { VariantBoundary } from "./boundary.js";
import { boundaryPoint } from "./boundary-point.js";
import { limitCrossings } from "./crossings.js";
import { DEGREES, GAIN_UNITS, limitingCaseOf, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import type { AxisMap, ConditionBoundary, Grid, LimitCrossing, MapVariant, StabilityMap } from "./format.js";
import { pinnedPoint } from "./pinned.js";
import { modelFormat, PLAN_FORMAT } from "./simulable.js";
import { lengthening, noNudgeWords, slowWords } from "./slow-words.js";
import type { StartCause } from "./start-cause.js";
import { startingTune, startReason } from "./tune.js";

/** Facts of the run that only the caller has. */
export interface Provenance {
  readonly productVersion: string;
  readonly command: string;
  readonly model: string;
  readonly sweep: string;
  readonly trials: number;
  readonly steps: number;
}

/** `causes`: of axes without a starting tune. */
export function buildMap(
  plan: Plan,
  axes: Readonly<Record<Axis, AxisReduction>>,
  run: Provenance,
  causes: Readonly<Record<Axis, readonly StartCause[]>> = { roll: [], pitch: [] },
): StabilityMap {
  const { airframe, sweep, digests } = plan;
  return {
    format: "gainscape.map/2",
    product: { name: "gainscape", version: run.productVersion },
    airframe: { name: airframe.name, version: airframe.version, title: airframe.title, digest: digests.airframe },
    sweep: { name: sweep.name, title: sweep.title, digest: digests.sweep },
    units: GAIN_UNITS,
    limits: sweep.limits,
    variants: plan.variants.map(
      (variant): MapVariant => ({
        ...limitingCaseOf(plan, variant),
        kind: variant.script.kind,
        title: variant.script.title,
        axis: variant.axis,
      }),
    ),
    axes: {
      roll: axisMap(plan, "roll", axes.roll, causes.roll),
      pitch: axisMap(plan, "pitch", axes.pitch, causes.pitch),
    },
    assumptions: [...assumptionsOf(plan), ...stepLines(plan, axes)],
    hover: Object.fromEntries(
      plan.conditions.map(({ condition, hover }) => [
        condition.name,
        {
          throttle: roundToTwelveDigits(100 * hover.throttle),
          rotorSpeed: roundToTwelveDigits((60 / 2 / Math.PI) * mean(hover.speeds)),
          voltage: roundToTwelveDigits(hover.volts),
        },
      ]),
    ),
    provenance: {
      command: run.command,
      seed: sweep.seed,
      model: run.model,
      sweep: run.sweep,
      trials: run.trials,
      steps: run.steps,
    },
    model: { format: modelFormat(airframe), ...airframe },
    plan: {
      format: PLAN_FORMAT,
      digest: digests.plan,
      sweep,
      holding: plan.holding,
      conditions: plan.conditions.map(({ condition, craft: { airframe: _, ...craft }, hover }) => ({
        condition,
        craft,
        hover,
      })),
      variants: plan.variants.map(({ script, ...rest }) => ({
        ...rest,
        script: script.name,
        ...lengthening(plan, script),
      })),
    },
  };
}

function axisMap(plan: Plan, axis: Axis, reduced: AxisReduction, causes: readonly StartCause[]): AxisMap {
  const { p, d } = plan.sweep.grid[axis];
  const grid = <T>(of: (point: number) => T): Grid<T> =>
    d.map((_, row) => p.map((__, column) => of(row * p.length + column)));
  const { judgements, worst, margins, safe } = reduced;
  const perMeasure = <T>(of: (id: MeasureId) => T) =>
    Object.fromEntries(MEASURE_IDS.map((id) => [id, of(id)])) as Record<MeasureId, T>;
  return {
    grid: { p: p.map(toDisplayP), d: d.map(toDisplayD) },
    verdict: grid((i) => at(judgements, i).verdict),
    reasons: grid((i) => at(judgements, i).reasons),
    decidedBy: grid((i) => at(judgements, i).decidedBy),
    measures: perMeasure((id) => grid((i) => numberOrNull(at(worst, i)[id].value))),
    absent: perMeasure((id) => grid((i) => at(worst, i)[id].absent)),
    margins: {
      gainUp: grid((i) => numberOrNull(at(margins, i).gainUp)),
      gainDown: grid((i) => numberOrNull(at(margins, i).gainDown)),
      phase: grid((i) => numberOrNull(DEGREES * at(margins, i).phase)),
    },
    boundary: {
      sustained: reduced.sustained.map((stable, row) => boundaryPoint(plan, at(d, row), stable)),
      byVariant: reduced.boundaries.map((boundary) => conditionBoundary(plan, boundary)),
      overshoot: crossings(plan, axis, reduced, "overshoot"),
      settling: crossings(plan, axis, reduced, "settling"),
      theory: reduced.theoryBoundary,
    },
    ...(reduced.leftOut === null ? {} : { leftOut: reduced.leftOut }),
    safe: grid((i) => at(safe, i)),
    safeShare: safe.filter(Boolean).length / safe.length,
    start: reduced.start === null ? null : startingTune(plan, axis, reduced.start),
    startReason: reduced.start === null ? startReason(plan, reduced, causes) : null,
    ...(causes.length === 0 ? {} : { startCauses: causes }),
    ...(reduced.confidence === undefined ? {} : { confidence: reduced.confidence }),
    ...(reduced.pinned === null ? {} : { pinned: pinnedPoint(plan, reduced.pinned) }),
  };
}

const numberOrNull = (value: number | null): number | null =>
  value === null || !Number.isFinite(value) ? null : roundToTwelveDigits(value);

function conditionBoundary(plan: Plan, { variant, perD, atRest }: VariantBoundary): ConditionBoundary {
  const planned = at(plan.variants, variant);
  return {
    ...limitingCaseOf(plan, planned),
    kind: planned.script.kind,
    ...(atRest === undefined ? {} : { atRest }),
    perD: perD.map((stable, row) => ({
      d: toDisplayD(at(plan.sweep.grid[planned.axis].d, row)),
      stable: stable.map(({ from, to, fromOpen, toOpen, width }) => ({
        from: toDisplayP(from),
        to: toDisplayP(to),
        fromOpen,
        toOpen,
        width: [toDisplayP(width[0]), toDisplayP(width[1])] as const,
      })),
    })),
  };
}

function crossings({ sweep }: Plan, axis: Axis, { worst }: AxisReduction, id: MeasureId): LimitCrossing[] {
  const { p, d } = sweep.grid[axis];
  const limit = sweep.limits[id];
  if (limit === null) return [];
  return limitCrossings(p, d, worst, id, limit).map((found, row) => ({
    d: toDisplayD(at(d, row)),
    p: found.map(toDisplayP),
  }));
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** What a time step too long for the question does to the boundary, by theory. */
function stepLines(plan: Plan, axes: Readonly<Record<Axis, AxisReduction>>): string[] {
  return (["roll", "pitch"] as const).flatMap((axis) => {
    const { step } = axes[axis].theoryBoundary;
    if (step?.difference == null || Math.abs(step.difference) <= 100 * STEP_SHARE) return [];
    const off = Number(Math.abs(step.difference).toPrecision(2));
    const place = `${step.throttle.toPrecision(3)} % throttle, ${step.condition}, D ${step.d.toPrecision(3)}`;
    return [
      `Time step: with controller.substeps ${plan.airframe.controller.substeps} it moves the boundary of ${axis} by up to ${off} % of P (${place}), more than the ${100 * STEP_SHARE} % that are aimed at where the model leaves them open.`,
    ];
  });
}

function assumptionsOf(plan: Plan): string[] {
  const { airframe, sweep, assumed } = plan;
  return [
    ...airframe.defaulted.map((line) => `model: ${line}`),
    ...sweep.defaulted.map((line) => `sweep: ${line}`),
    ...assumed,
    ...MEASURE_IDS.filter((id) => sweep.limits[id] !== null).map(
      (id) =>
        `Limit: ${measureOf(id).title} ${sweep.limits[id]}${measureOf(id).unit === "1" ? "" : ` ${measureOf(id).unit}`}.`,
    ),
    ...slowWords(plan),
    ...noNudgeWords(plan),
    `I of the swept axis: ${(airframe.controller.roll.i / I_UNIT).toPrecision(3)} (roll), ${(airframe.controller.pitch.i / I_UNIT).toPrecision(3)} (pitch) %/(100 deg).`,
  ];
}
