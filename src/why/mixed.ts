// Two versions of one craft, and crafts between them that have some groups of numbers of the one and some of the other.
import type { Airframe } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import type { Coalition } from "./shapley.js";

/** Where in a resolved model a number stands: "propeller", "ct"; a whole part: "inertia". */
type Where = readonly [part: string, key?: string];

/** Numbers that change together. */
export interface ChangedGroup {
  /** As a model file spells the first of them, or what they are together. */
  readonly id: string;
  readonly where: readonly Where[];
}

/** The base with the numbers of the chosen groups as the candidate has them. */
export function mixed(
  base: Airframe,
  candidate: Airframe,
  groups: readonly ChangedGroup[],
  chosen: Coalition,
): Airframe {
  const taken = groups.filter((_, group) => at(chosen, group)).flatMap(({ where }) => where);
  return taken.reduce((model, where) => withTaken(model, candidate, where), base);
}

type Parts = Readonly<Record<string, unknown>>;

function withTaken(model: Airframe, candidate: Airframe, [part, key]: Where): Airframe {
  const [own, other] = [model, candidate].map((one) => (one as unknown as Parts)[part]);
  return { ...model, [part]: key === undefined ? other : withKey(own as Parts, other as Parts, key) };
}

/** A key that the other lacks is lacking. */
function withKey(own: Parts, other: Parts, key: string): Parts {
  const { [key]: _, ...rest } = own;
  return Object.hasOwn(other, key) ? { ...rest, [key]: other[key] } : rest;
}
