// What the lists of a strip in map.json must agree on.
import type { Path } from "../base/problem.js";
import type { Fault } from "./fault.js";
import type { Strip, Strips } from "./strip-format.js";

export function stripFaults({ yaw, i = {} }: Strips = {}): Fault[] {
  return [
    ...(yaw === undefined ? [] : faultsOf(yaw, ["strips", "yaw"])),
    ...Object.entries(i).flatMap(([axis, strip]) => faultsOf(strip, ["strips", "i", axis])),
  ];
}

/** Gains rise, every list has an entry for each, and the gains that are named are among them. */
function faultsOf({ gains, measures, margins, fails, declared, choice }: Strip, path: Path): Fault[] {
  const lists = Object.entries({ ...margins, ...measures });
  const wrong = lists.find(([, list]) => list.length !== gains.length);
  const expected = `expected one entry for each of ${gains.length} gains`;
  return [
    ...(gains.every((gain, at) => at === 0 || gain > (gains[at - 1] ?? gain))
      ? []
      : [[[...path, "gains"], "does not rise"] as const]),
    ...(wrong === undefined
      ? []
      : [[[...path, wrong[0] in margins ? "margins" : "measures", wrong[0]], expected] as const]),
    ...(fails.length === gains.length ? [] : [[[...path, "fails"], expected] as const]),
    ...(gains.includes(declared) ? [] : [[[...path, "declared"], `${declared} is none of the gains`] as const]),
    ...(choice === null || gains.includes(choice)
      ? []
      : [[[...path, "choice"], `${choice} is none of the gains`] as const]),
  ];
}
