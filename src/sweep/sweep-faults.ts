// What a sweep file can say in the right form and still not ask.
import type { Path } from "../base/problem.js";
import { say } from "../base/units.js";
import type { SweepFile } from "./schema.js";
import type { Script } from "./sweep.js";

const MOST_POINTS = 65_536;

/** Takes a problem at a path of the sweep file. */
export type Report = (path: Path, message: string) => void;

export function gridFaults({ grid }: SweepFile, report: Report): void {
  for (const [key, kind] of [
    ["p", "pGain"],
    ["d", "dGain"],
  ] as const) {
    const { from, to } = grid[key];
    if (from === to) report(["grid", key], `is empty: from and to are both ${say(to, kind)}`);
    if (from > to)
      report(["grid", key], `runs backwards, from ${say(from, kind)} to ${say(to, kind)}; expected the smaller first`);
  }
  const total = grid.p.points * grid.d.points;
  if (total <= MOST_POINTS) return;
  report(
    ["grid"],
    `${grid.p.points} x ${grid.d.points} are ${total} points, expected at most ${MOST_POINTS}; boundaries are refined below the grid`,
  );
}

export function nameFaults({ conditions }: SweepFile, report: Report): void {
  conditions.forEach(({ name }, at) => {
    if (conditions.findIndex((other) => other.name === name) < at)
      report(["conditions", at, "name"], `"${name}" is taken by a condition above`);
  });
}

export function twiceUsed(scripts: readonly (Script | null)[], report: Report): void {
  scripts.forEach((script, at) => {
    const first = scripts.findIndex((other) => other?.name === script?.name);
    if (script !== null && first < at)
      report(["scripts", at, "use"], `"${script.name}" is used above; list all its levels and rates there`);
  });
}
