// The boundary of a model as a sweep's draws have it, by theory alone: the same draws, lines and places as the sweep itself.
import type { Airframe } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import { quantileOf } from "../confidence/at-start.js";
import { type DrawTheory, drawTheory } from "../confidence/draw-theory.js";
import { loopPlaces } from "../confidence/places.js";
import type { BandPoint } from "../map/confidence-format.js";
import { roundToTwelveDigits, toDisplayD, toDisplayP } from "../map/display-units.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { runDraws } from "./draws.js";
import type { WithDocument } from "./read.js";

export interface Tune {
  readonly p: number; // fraction per (rad/s)
  readonly d: number; // fraction per (rad/s^2)
}

export interface AxisBand {
  /** Per D of the plan's grid, as a map has it before trials have moved it. */
  readonly band: readonly BandPoint[];
  /** Share of the draws that judge a start in which theory's margins hold. */
  safeShare(tune: Tune): number;
  /** How many judge. */
  readonly judging: number;
}

const AXES: readonly Axis[] = ["roll", "pitch"];

/** Null where the model does not say how far it may be off, or the sweep asks for no draws. */
export function boundaryBands(plan: Plan, model: WithDocument<Airframe>): Readonly<Record<Axis, AxisBand>> | null {
  const draws = runDraws(plan, model.document);
  if (draws === null) return null;
  const all = draws.plan.draws ?? [];
  const near = nearPlaces(plan);
  const theories = all.map((one) => drawTheory(one, near));
  const judging = all.slice(draws.uncertainty.draws);
  const whole = new Map<Plan, Readonly<Record<Axis, DrawTheory>>>();
  const theoryOf = (one: Plan) => {
    const made = whole.get(one) ?? drawTheory(one, loopPlaces(plan));
    whole.set(one, made);
    return made;
  };
  const of = (axis: Axis): AxisBand => {
    const { d: rows } = plan.sweep.grid[axis];
    const boundaries = theories.map((theory) => rows.map((d) => theory[axis].boundary(d)));
    return {
      band: rows.map((d, row) => {
        const column = boundaries.map((boundary) => at(boundary, row));
        const [low, middle, high] = [0.05, 0.5, 0.95].map((share) => {
          const p = quantileOf(column, share);
          return p === null ? null : roundToTwelveDigits(toDisplayP(p));
        });
        return { d: roundToTwelveDigits(toDisplayD(d)), low: low ?? null, middle: middle ?? null, high: high ?? null };
      }),
      safeShare: ({ p, d }) =>
        judging.filter((one) => theoryOf(one)[axis].haveMargins([[p, d]])[0] === 1).length / judging.length,
      judging: judging.length,
    };
  };
  return { roll: of("roll"), pitch: of("pitch") };
}

/** A loop whose boundary lies beyond the nearest by this factor in the model as it is written bounds no draw. */
const FAR = 1.5;

/** The places whose loops may bound a draw: the others would be computed draw by draw for nothing. */
function nearPlaces(plan: Plan): Readonly<Record<Axis, readonly number[]>> {
  const places = loopPlaces(plan);
  const of = (axis: Axis): number[] => {
    const { d: rows } = plan.sweep.grid[axis];
    const each = places[axis].map((place) => {
      const { boundary } = drawTheory(plan, { roll: [], pitch: [], [axis]: [place] })[axis];
      return rows.map((d) => boundary(d) ?? Number.POSITIVE_INFINITY);
    });
    const lowest = rows.map((_, row) => Math.min(...each.map((one) => at(one, row))));
    return places[axis].filter((_, k) => at(each, k).some((p, row) => p <= FAR * at(lowest, row)));
  };
  const [roll, pitch] = AXES.map(of);
  return { roll: roll ?? [], pitch: pitch ?? [] };
}
