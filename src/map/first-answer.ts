// What theory alone says of a craft before any trial is simulated: a first start of each axis, its margins, and where the axis
// gives out. An estimate that the trials check.
import type { Airframe } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import type { OperatingPoints } from "../plan/operating-points.js";
import type { Place } from "../plan/places.js";
import type { Axis, RequestedSweep } from "../sweep/sweep.js";
import { endAbove } from "../theory/ground.js";
import { worstMargins } from "../theory/matched-gains.js";
import type { LoopPieces } from "../theory/pieces.js";
import { referenceTune } from "../theory/reference-tune.js";
import { DEGREES, GAIN_UNITS, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import { perDisplayUnit } from "./own-scale.js";

export interface FirstAnswer {
  readonly airframe: { readonly name: string; readonly version: string };
  readonly sweep: { readonly name: string };
  readonly units: typeof GAIN_UNITS;
  /** Null: no P and D keep even the least margins that are looked for. */
  readonly roll: FirstStart | null;
  readonly pitch: FirstStart | null;
}

/** The most P that keeps the margins of a usual starting tune at every level, in display units. */
export interface FirstStart {
  readonly p: number;
  readonly d: number;
  /** The same in the controller's own units; null where the model does not say what they are worth. */
  readonly own: { readonly p: number; readonly d: number } | null;
  /** Worst over the levels; null: no such limit. dB, deg. */
  readonly margins: { readonly gainUp: number | null; readonly gainDown: number | null; readonly phase: number | null };
  /** Whether they are those that the sweep asks of a safe point. */
  readonly enough: boolean;
  /** Where the first and the last of the levels give out as P alone rises; null: nowhere near. */
  readonly boundary: { readonly lowest: FirstEnd | null; readonly highest: FirstEnd | null };
}

export interface FirstEnd {
  readonly p: number;
  readonly throttle: number; // %
  readonly condition: string;
}

/** Takes some tenths of a second, most of it for loops that planning uses again. */
export function firstAnswer(airframe: Airframe, sweep: RequestedSweep, points: OperatingPoints): FirstAnswer {
  const start = (axis: Axis) => firstStart(airframe, sweep, axis, loopsOf(airframe, points, axis));
  return {
    airframe: { name: airframe.name, version: airframe.version },
    sweep: { name: sweep.name },
    units: GAIN_UNITS,
    roll: start("roll"),
    pitch: start("pitch"),
  };
}

interface PlacedLoop {
  readonly place: Place;
  readonly loop: LoopPieces;
}

/** The loops of an axis where the sweep simulates it. */
function loopsOf(
  { controller }: Airframe,
  { variants, conditions, places, hold }: OperatingPoints,
  axis: Axis,
): PlacedLoop[] {
  const holding = { ...hold.holding, yaw: controller.yaw };
  const mine = variants.filter((variant) => variant.axis === axis);
  const isMine = (place: Place) =>
    mine.some(
      ({ throttle, condition }) =>
        throttle === place.throttle && at(conditions, condition).condition.name === place.condition,
    );
  return places.filter(isMine).map((place) => ({ place, loop: place.loop(axis, holding) }));
}

function firstStart(
  { controller }: Airframe,
  { margins: wanted }: RequestedSweep,
  axis: Axis,
  placed: readonly PlacedLoop[],
): FirstStart | null {
  const loops = placed.map(({ loop }) => loop);
  const gains = referenceTune(loops, controller[axis].i);
  if (gains === null) return null;
  const { gainUp, gainDown, phase } = worstMargins(loops, gains);
  const ends = placed.map(({ place, loop }) => ({ place, p: endAbove([loop], gains) ?? Number.POSITIVE_INFINITY }));
  ends.sort((one, other) => one.p - other.p);
  const [p, d] = [toDisplayP(gains.p), toDisplayD(gains.d)];
  const own = perDisplayUnit(controller.scale);
  const keeps = (margin: number | null, least: number) => margin === null || margin >= least;
  return {
    p,
    d,
    own: own === null ? null : { p: roundToTwelveDigits(own.p * p), d: roundToTwelveDigits(own.d * d) },
    margins: { gainUp: numberOrNull(gainUp), gainDown: numberOrNull(gainDown), phase: numberOrNull(phase) },
    enough: keeps(gainUp, wanted.gain) && keeps(gainDown, wanted.gain) && keeps(phase, DEGREES * wanted.phase),
    boundary: { lowest: endOf(at(ends, 0)), highest: endOf(at(ends, ends.length - 1)) },
  };
}

const numberOrNull = (value: number | null): number | null => (value === null ? null : roundToTwelveDigits(value));

const endOf = ({ place, p }: { readonly place: Place; readonly p: number }): FirstEnd | null =>
  Number.isFinite(p)
    ? { p: toDisplayP(p), throttle: roundToTwelveDigits(100 * place.throttle), condition: place.condition }
    : null;
