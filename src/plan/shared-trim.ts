// Trims of a craft at the throttle levels of a sweep, each found once: variants, operating points, tails and theory start from
// the same ones.
import type { Craft } from "../airframe/craft.js";
import type { Trim } from "../airframe/powered.js";
import { trimAt } from "../airframe/trim.js";
import { oncePer } from "../theory/once.js";

const trimsOf = oncePer((_: Craft) => new Map<number, Trim>());

/** As trimAt; the same object for the same craft and collective duty. */
export function sharedTrim(craft: Craft, throttle: number): Trim {
  const trims = trimsOf(craft);
  const trim = trims.get(throttle) ?? trimAt(craft, throttle);
  trims.set(throttle, trim);
  return trim;
}
