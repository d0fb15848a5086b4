// What one unit of the controller's own numbers is worth, as the model of a map says it.
import type { Airframe, ControllerScale } from "../airframe/airframe.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../base/units.js";
import type { StabilityMap } from "./format.js";

/** The controller's own units per display unit of a gain; null where the model does not say. */
export interface OwnScale {
  readonly p: number;
  readonly i: number | null;
  readonly d: number;
  readonly yaw: { readonly p: number; readonly i: number | null } | null;
}

/** Own numbers from here up are entered as whole numbers. */
export const WHOLE_FROM = 10;

/** Null where the model does not say what P and D are worth. Reading a map has checked the shape of what its model holds. */
export const ownScale = ({ model }: Pick<StabilityMap, "model">): OwnScale | null =>
  perDisplayUnit((model as Partial<Airframe> | null)?.controller?.scale ?? null);

/** The same of a model's own scale in SI. */
export function perDisplayUnit(scale: ControllerScale | null): OwnScale | null {
  if (scale === null) return null;
  const ofI = (worth: number | undefined) => (worth === undefined ? null : I_UNIT / worth);
  const { yaw } = scale;
  return {
    p: P_UNIT / scale.p,
    i: ofI(scale.i),
    d: D_UNIT / scale.d,
    yaw: yaw === undefined ? null : { p: P_UNIT / yaw.p, i: ofI(yaw.i) },
  };
}

/** The yaw gains of a map's model in display units; null where the map lacks that part of it. */
export function yawGains({ model }: Pick<StabilityMap, "model">): { readonly p: number; readonly i: number } | null {
  const yaw = (model as Partial<Airframe> | null)?.controller?.yaw;
  return yaw === undefined ? null : { p: yaw.p / P_UNIT, i: yaw.i / I_UNIT };
}

/** Of two maps side by side: theirs where both say the same, else null. */
export function sharedScale(one: OwnScale | null, other: OwnScale | null): OwnScale | null {
  const same = one !== null && other !== null && one.p === other.p && one.d === other.d;
  return same ? other : null;
}
