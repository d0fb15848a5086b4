// Why it moved: theory's answer for the models in two maps, in the maps' units and beside what their trials say.
import type { Airframe } from "../airframe/airframe.js";
import { exp } from "../base/elementary.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { StabilityMap } from "../map/format.js";
import { storedAirframe } from "../map/simulable.js";
import type { AxisQuestion } from "../why/answers.js";
import { type Parts, type WhyAnswer, whyMoved } from "../why/why.js";
import { changedGroups, type DirectedGroup } from "./changed-groups.js";
import type { Axis, AxisDrift, GateResult } from "./format.js";
import { changedValues } from "./model-changes.js";
import { packsAsked } from "./question.js";
import type { AxisWhy, Why, WhyParts } from "./why-format.js";

export interface Moved {
  readonly axes: Readonly<Record<Axis, AxisDrift>>;
  readonly gates: readonly GateResult[];
}

/** Null where theory cannot say, or has nothing to. */
export function whyOf(base: StabilityMap, candidate: StabilityMap, moved: Moved): Why | null {
  const [before, after] = [storedAirframe(base), storedAirframe(candidate)];
  const asked = packsAsked(candidate);
  if (before === null || after === null || asked === null) return null;
  const { groups, unread } = changedGroups(changedValues(before, after), before, after);
  const questions = {
    roll: questionOf("roll", base, before, moved),
    pitch: questionOf("pitch", base, before, moved),
  };
  const axes = { roll: inSi(questions.roll, base, "roll"), pitch: inSi(questions.pitch, base, "pitch") };
  const answer = whyMoved({ base: before, candidate: after, groups, asked, axes });
  if (answer === null) return null;
  return {
    changes: answer.teams.map((team) => ({ numbers: numbersOf(team, groups) })),
    unread,
    orders: answer.orders,
    axes: {
      roll: axisWhy(answer, "roll", questions.roll, moved.axes.roll),
      pitch: axisWhy(answer, "pitch", questions.pitch, moved.axes.pitch),
    },
  };
}

const numbersOf = (team: readonly number[], groups: readonly DirectedGroup[]) =>
  groups.flatMap(({ id, change }, place) => (team.includes(place) ? [{ id, change }] : []));

/** In display units. */
interface DisplayQuestion {
  readonly d: number;
  readonly tune: AxisWhy["tune"];
  readonly start: { readonly p: number; readonly d: number; readonly i: number } | null;
}

/** The boundary is looked at where the gate saw it fall most, else where the base would start. */
function questionOf(axis: Axis, base: StabilityMap, { controller }: Airframe, { axes, gates }: Moved): DisplayQuestion {
  const { pinned, start, grid } = base.axes[axis];
  const gate = gates.find((one) => one.gate === "boundaryFall" && one.axis === axis);
  const middle = grid.d[grid.d.length >> 1] ?? 0;
  const tune = pinned ?? start;
  return {
    d: gate?.d ?? axes[axis].shift.lowest?.d ?? start?.d ?? middle,
    tune: tune === null ? null : { p: tune.p, d: tune.d, pinned: pinned !== undefined },
    start: start === null ? null : { p: start.p, d: start.d, i: controller[axis].i },
  };
}

/** Theory looks for the boundary beyond the grid, by this factor. */
const BEYOND = 10;

function inSi({ d, tune, start }: DisplayQuestion, base: StabilityMap, axis: Axis): AxisQuestion {
  const { p } = base.axes[axis].grid;
  const least = p.find((one) => one > 0) ?? 1;
  return {
    d: d * D_UNIT,
    range: { from: least * P_UNIT, to: (p.at(-1) ?? least) * BEYOND * P_UNIT },
    tune: tune === null ? null : { p: tune.p * P_UNIT, d: tune.d * D_UNIT },
    start: start === null ? null : { p: start.p * P_UNIT, d: start.d * D_UNIT, i: start.i },
  };
}

function axisWhy(answer: WhyAnswer, axis: Axis, { d, tune }: DisplayQuestion, { shift, start }: AxisDrift): AxisWhy {
  const found = answer.axes[axis];
  const row = shift.perD.find((one) => one.d === d);
  const boundary =
    found.boundary === null ? null : inPercent(found.boundary, row?.state === "moved" ? row.percent : null);
  return {
    boundary: boundary === null ? null : { d, ...boundary },
    tune,
    gainMargin: plain(found.gain),
    phaseMargin: plain(found.phase),
    startP: found.startP === null ? null : inPercent(found.startP, start.pPercent),
    startD: found.startD === null ? null : inPercent(found.startD, start.dPercent),
  };
}

const sixDigits = (value: number): number => Number(value.toPrecision(6));

function scaled({ whole, parts, errors }: Parts, factor: number, simulated: number | null): WhyParts {
  const each = (values: readonly number[]) => values.map((value) => sixDigits(factor * value));
  return {
    whole: sixDigits(factor * whole),
    parts: each(parts),
    errors: errors === null ? null : each(errors),
    simulated: simulated === null ? null : sixDigits(simulated),
  };
}

/** Margins in dB and degrees add up as they are; what trials would add is nothing: a map's margins are theory's. */
const plain = (parts: Parts | null): WhyParts | null => (parts === null ? null : scaled(parts, 1, null));

/** Parts of a logarithm as percents that add up to the percent of the whole. */
const inPercent = (parts: Parts, simulated: number | null): WhyParts =>
  scaled(parts, parts.whole === 0 ? 100 : (100 * (exp(parts.whole) - 1)) / parts.whole, simulated);
