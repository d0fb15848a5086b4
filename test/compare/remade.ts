// A map that was edited by a careful hand: its digests are made anew.
import { digestOf } from "../../src/base/digest.js";
import { withoutFormat } from "../../src/map/simulable.js";
import { sweepDigest } from "../../src/plan/plan.js";

type Group = Record<string, unknown>;

const group = (value: unknown): Group | null =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Group) : null;

/** A copy with the digests of sweep and model as they would have to be; whatever is no map is left as it is. */
export function redigested<T>(value: T): T {
  const map = group(structuredClone(value));
  const [sweep, storedSweep] = [group(map?.sweep), group(group(map?.plan)?.sweep)];
  const [airframe, model] = [group(map?.airframe), group(map?.model)];
  try {
    if (sweep !== null && storedSweep !== null) sweep.digest = sweepDigest(storedSweep);
    if (airframe !== null && model !== null) airframe.digest = digestOf(withoutFormat(model));
  } catch {} // a number that is none: no digest to make
  return (map ?? value) as T;
}
