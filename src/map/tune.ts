// The starting tune in words and display units: room on each side, what limits it, or why there is none.
import { at } from "../base/at.js";
import { MEASURE_IDS, measureOf } from "../base/measures.js";
import { I_UNIT } from "../base/units.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import type { AxisReduction, ConfirmedStart } from "./axis.js";
import { deciderIn, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import { constraintTitle } from "./field.js";
import type { LimitRoom, StartingTune } from "./format.js";
import { OTHER_SEEDS } from "./other-seeds.js";
import type { Edge } from "./start.js";

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

/** A plain reason why no tune of the grid can be started with. */
export function whyNone(plan: Plan, { judgements, safe, field }: AxisReduction): string {
  if (safe.some(Boolean))
    return "Some points are safe, but none between them held up in its own trials; refine the grid around the safe region.";
  const clean = judgements.filter(({ verdict }) => verdict === "clean").length;
  if (clean > 0) {
    const { gain, phase } = plan.sweep.margins;
    const least = `${gain.toPrecision(2)} dB and ${((phase * 180) / Math.PI).toPrecision(3)} deg`;
    return `${clean} points are clean, but none keeps ${least} of margin under every condition; lower the delays or ask for less margin.`;
  }
  const blocking = field.constraints
    .map(({ name, room }) => ({ name, over: room.filter((one) => one < 0).length }))
    .sort((a, b) => b.over - a.over);
  const { name, over } = at(blocking, 0);
  const limit = MEASURE_IDS.find((id) => id === name);
  const limitWords = limit === undefined ? "" : ` (limit ${plan.sweep.limits[limit]} ${measureOf(limit).unit})`;
  return `No point of the grid is clean: ${constraintTitle(name)}${limitWords} rules out ${over} of ${judgements.length} points. Move the grid or the limit.`;
}
