// The starting tune in words and display units: room on each side, what limits it, or why there is none.
import { at } from "../base/at.js";
import { MEASURE_IDS, measureOf } from "../base/measures.js";
import { I_UNIT } from "../base/units.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import type { AxisReduction, ConfirmedStart } from "./axis.js";
import { deciderIn, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import { constraintTitle, nearestToSafe } from "./field.js";
import type { LimitRoom, StartingTune } from "./format.js";
import { placeText } from "./gain-text.js";
import { OTHER_SEEDS } from "./other-seeds.js";
import { perDisplayUnit } from "./own-scale.js";
import type { Edge } from "./start.js";
import type { StartCause } from "./start-cause.js";

export function startingTune(plan: Plan, axis: Axis, start: ConfirmedStart): StartingTune {
  const { controller } = plan.airframe;
  const room = {
    pUp: limitRoom(plan, start.edges.pUp),
    pDown: limitRoom(plan, start.edges.pDown),
    dUp: limitRoom(plan, start.edges.dUp),
    dDown: limitRoom(plan, start.edges.dDown),
  };
  const sides = [
    ["more P", room.pUp],
    ["less P", room.pDown],
    ["more D", room.dUp],
    ["less D", room.dDown],
  ] as const;
  const nearness = (side: LimitRoom) =>
    side.factor === null ? Number.POSITIVE_INFINITY : Math.abs(Math.log(side.factor));
  const [way, nearest] = at(
    [...sides].sort(([, a], [, b]) => nearness(a) - nearness(b)),
    0,
  );
  return {
    p: toDisplayP(start.p),
    d: toDisplayD(start.d),
    i: roundToTwelveDigits(controller[axis].i / I_UNIT),
    own:
      controller.scale === null
        ? null
        : {
            p: roundToTwelveDigits(start.p / controller.scale.p),
            d: roundToTwelveDigits(start.d / controller.scale.d),
          },
    limitedBy: `${nearest.limit} with ${way}`,
    room,
    measures: Object.fromEntries(
      MEASURE_IDS.map((id) => [id, start.worst[id].value === null ? null : roundToTwelveDigits(start.worst[id].value)]),
    ),
    otherSeeds: { seeds: OTHER_SEEDS, ranges: start.otherSeeds },
    margins: {
      gainUp: Number.isFinite(start.margins.gainUp) ? roundToTwelveDigits(start.margins.gainUp) : null,
      gainDown: start.margins.gainDown === null ? null : roundToTwelveDigits(start.margins.gainDown),
      phase: roundToTwelveDigits((start.margins.phase * 180) / Math.PI),
    },
  };
}

function limitRoom(plan: Plan, { factor, constraint, point }: Edge): LimitRoom {
  if (constraint === null)
    return { limit: "grid edge", decidedBy: null, factor: factor === null ? null : roundToTwelveDigits(factor) };
  const decidedBy = deciderIn(plan, at(constraint.by, point));
  return {
    limit: constraintTitle(constraint.name),
    decidedBy,
    factor: factor === null ? null : roundToTwelveDigits(factor),
  };
}

/** Why no tune of the grid can be started with, and what to do where the craft's own cause is not known. */
function whyNone(
  plan: Plan,
  { judgements, safe, field }: AxisReduction,
): { readonly fact: string; readonly advice: string } {
  if (safe.some(Boolean))
    return {
      fact: "Some points are safe, but none between them held up in its own trials.",
      advice: "Refine the grid around the safe region.",
    };
  const clean = judgements.filter(({ verdict }) => verdict === "clean").length;
  if (clean > 0) {
    const { gain, phase } = plan.sweep.margins;
    const least = `${gain.toPrecision(2)} dB and ${((phase * 180) / Math.PI).toPrecision(3)} deg`;
    return {
      fact: `${clean} points are clean, but none keeps ${least} of margin under every condition.`,
      advice: "No single change of the model mends it: lower several of the delays, or ask for less margin.",
    };
  }
  const { p, d, constraint } = nearestToSafe(field);
  const { name } = constraint;
  const title = constraintTitle(name);
  const limit = MEASURE_IDS.find((id) => id === name);
  const unit = limit === undefined || measureOf(limit).unit === "1" ? "" : ` ${measureOf(limit).unit}`;
  const limitWords = limit === undefined ? "" : ` (limit ${plan.sweep.limits[limit]}${unit})`;
  const place = placeText(perDisplayUnit(plan.airframe.controller.scale), { p: toDisplayP(p), d: toDisplayD(d) });
  return {
    fact: `No point of the grid is clean; the nearest to it, ${place}, fails by ${title.charAt(0).toLowerCase()}${title.slice(1)}${limitWords}.`,
    advice:
      "No single change of the model mends it: hold the sheet of the model against the craft, and the limits against what you need.",
  };
}

/** The fact, and the likeliest cause in the craft's terms. */
export function startReason(plan: Plan, reduced: AxisReduction, [likeliest]: readonly StartCause[]): string {
  const { fact, advice } = whyNone(plan, reduced);
  return `${fact} ${likeliest?.text ?? advice}`;
}
