// What one unit of the controller's own numbers is worth, as the tune that was flown has them.
import type { FittedAxis } from "../../fit/format.js";
import type { OwnScale } from "../../map/own-scale.js";

/** Null where the tune was not set in the controller's own numbers. */
export function scaleOfTune(tune: FittedAxis["tune"]): OwnScale | null {
  if (tune?.own === undefined || !(tune.p > 0 && tune.d > 0)) return null;
  return { p: tune.own.p / tune.p, i: null, d: tune.own.d / tune.d, yaw: null };
}
