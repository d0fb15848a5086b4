// The map's assumptions about the length of trials, and about axes without a small-signal script.
import type { Plan } from "../plan/plan.js";
import type { Script } from "../sweep/sweep.js";
import { isPlainNudge } from "./agreement.js";

const toTwoDigits = (value: number): string => String(Number(value.toPrecision(2)));

/** Where a variant's script ends, if it was lengthened. */
export function lengthening(
  { sweep }: Plan,
  { name, duration, tail }: Script,
): Partial<Pick<Script, "duration" | "tail">> {
  const script = sweep.scripts.find(({ script }) => script.name === name)?.script;
  return script === undefined || script.tail.to === tail.to ? {} : { duration, tail };
}

/** Oscillations too slow for the scripts as they are written. */
export const slowWords = ({ slow = [] }: Plan): string[] =>
  slow.flatMap(({ axis, shown, tail, unseen }) => [
    ...(shown === null
      ? []
      : [
          `Slow craft: at the edge of stability ${axis} swings at ${toTwoDigits(shown)} Hz, so tails were made longer, up to ${toTwoDigits(tail)} s.`,
        ]),
    ...(unseen === null
      ? []
      : [
          `Slower still: at the edge of stability ${axis} swings at ${toTwoDigits(unseen)} Hz as well; no script is long enough for that, and theory alone judges it.`,
        ]),
  ]);

/** Axes without a plain nudge: small oscillations there are left to theory. */
export const noNudgeWords = ({ variants }: Plan): string[] =>
  (["roll", "pitch"] as const)
    .filter((axis) => !variants.some((variant) => variant.axis === axis && isPlainNudge(variant.script)))
    .map(
      (axis) =>
        `No small-signal script (a nudge in still air) is swept on ${axis}: where a small oscillation sets in there is left to theory and to the larger scripts.`,
    );
