// Physics steps per control period: as few as keep the error of the time step in the boundary small.

import type { Airframe } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import type { Axis, GainGrid, Sweep } from "../sweep/sweep.js";
import { nearestEnd, type StableEnd, stableEnds } from "../theory/ends.js";
import type { LoopPieces } from "../theory/pieces.js";
import type { GainsByAxis } from "../theory/plant.js";
import { steppedPlant } from "../theory/stepped.js";
import { type LoopOf, type Place, steppedLoop } from "./places.js";

/** Share of P by which the time step may move the boundary. */
export const STEP_SHARE = 0.005;
/** Share of that after an allowance for the error of the coarse grid. */
const RESERVE = 0.97;

/** Upper limits: steps in a period, and Hz in all. Where they bind, the report states the remaining error. */
const MOST = 32;
const FASTEST = 32_000;

/** The least number found that moves no end of stable ground, at any D of the sweep, by more than STEP_SHARE of P. */
export function chooseSubsteps(
  airframe: Airframe,
  { grid }: Sweep,
  places: readonly Place[],
  holding: GainsByAxis,
): number {
  const axes = ["roll", "pitch"] as const;
  const endsOf = (loops: readonly LoopOf[]) =>
    loops.flatMap((loop) => axes.map((axis) => rows(loop(axis, holding), airframe, axis, grid[axis])));
  const exact = endsOf(places.map(({ loop }) => loop));
  const error = (substeps: number) => {
    const stepped = places.map(({ craft, trim }) => {
      const { controller } = airframe;
      const moved = { ...craft, airframe: { ...airframe, controller: { ...controller, substeps } } };
      return steppedLoop({ craft: moved, trim }, steppedPlant);
    });
    return largestShift(exact, endsOf(stepped));
  };
  const most = Math.max(1, Math.min(MOST, Math.floor(FASTEST / airframe.controller.rate)));
  let substeps = 1;
  for (let off = error(1); off > RESERVE * STEP_SHARE && substeps < most; off = error(substeps)) {
    // The error falls with the square of the step.
    const needed = Math.ceil(substeps * Math.sqrt(off / STEP_SHARE));
    substeps = Math.min(most, Math.max(substeps + 1, needed));
  }
  return substeps;
}

/** Ends per D. */
type Rows = readonly (readonly StableEnd[])[];

function rows(loop: LoopPieces, { controller }: Airframe, axis: Axis, { p, d }: GainGrid): Rows {
  const { i } = controller[axis];
  return d.map((gain) => stableEnds(loop, { d: gain, i }, p));
}

function largestShift(exact: readonly Rows[], stepped: readonly Rows[]): number {
  let largest = 0;
  stepped.forEach((loop, place) => {
    loop.forEach((ends, row) => {
      for (const end of ends) {
        const match = nearestEnd(end, at(at(exact, place), row));
        if (match !== null) largest = Math.max(largest, Math.abs(end.p / match.p - 1));
      }
    });
  });
  return largest;
}
