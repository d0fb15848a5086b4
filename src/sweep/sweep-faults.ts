// Faults of a sweep file whose form is right: sizes, names, limits and scripts that do not fit together.
import { STRIP_GATES } from "../base/gates.js";
import { keyAndValue, stepsOf } from "../base/key-path.js";
import type { Path } from "../base/problem.js";
import { MOST_BOUNDARIES, MOST_POINTS, MOST_VARIANTS } from "../base/sizes.js";
import { figures, quantityText } from "../base/units.js";
import { requestedGrid, requestedLines } from "./grid.js";
import { allowedIn, gateKey, type SweepFile } from "./schema.js";
import type { Script, ScriptUse } from "./sweep.js";

/** Their results take about a gigabyte of memory. */
const MOST_TRIALS = 5_000_000;

/** Takes a problem at a path of the sweep file. */
export type Report = (path: Path, message: string) => void;

/** A grid, scripts and conditions that are each fair may multiply to more than a machine's memory. */
export function sizeFaults({ grid, conditions }: SweepFile, uses: readonly ScriptUse[], report: Report): void {
  const lines = requestedLines(grid);
  const points = Math.max(lines.roll.p * lines.roll.d, lines.pitch.p * lines.pitch.d);
  const rows = Math.max(lines.roll.d, lines.pitch.d);
  const perUse = uses.map(
    ({ script, throttle, rates }) =>
      script.axes.filter((axis) => axis !== "yaw").length * throttle.length * rates.length,
  );
  const variants = conditions.length * perUse.reduce((sum, one) => sum + one, 0);
  const trials = points * variants;
  const rest = "make several sweeps of it";
  if (variants > MOST_VARIANTS)
    report(["scripts"], `${variants} variants at each point of the grid, expected at most ${MOST_VARIANTS}; ${rest}`);
  else if (points <= MOST_POINTS && trials > MOST_TRIALS)
    report(
      ["grid"],
      `${points} points by ${variants} variants are ${trials} trials, expected at most ${MOST_TRIALS}; ${rest}`,
    );
  else if (rows * variants > MOST_BOUNDARIES)
    report(
      typeof grid === "object" && "d" in grid ? ["grid", "d"] : ["grid"],
      `${rows} lines by ${variants} variants are ${rows * variants} boundaries, expected at most ${MOST_BOUNDARIES}; ${rest}`,
    );
}

export function nameFaults({ conditions }: SweepFile, report: Report): void {
  conditions.forEach(({ name }, at) => {
    if (conditions.findIndex((other) => other.name === name) < at)
      report(["conditions", at, "name"], `"${name}" is taken by a condition above`);
  });
}

/** A pinned tune beyond the grid could not be shown on its map; lines the plan chooses reach as far as it. */
export function pinnedFaults({ grid, pinned }: SweepFile, report: Report): void {
  if (pinned === undefined) return;
  const requested = requestedGrid(grid);
  for (const axis of ["roll", "pitch"] as const)
    for (const [gain, kind] of [
      ["p", "pGain"],
      ["d", "dGain"],
    ] as const) {
      const lines = requested[axis];
      if ("auto" in lines) continue;
      const [from = 0, to = 0] = [lines[gain][0], lines[gain].at(-1)];
      const value = pinned[axis][gain];
      if (value < from || value > to)
        report(
          ["pinned", axis, gain],
          `${quantityText(value, kind)} lies outside the grid, ${quantityText(from, kind)} to ${quantityText(to, kind)}; widen the grid`,
        );
    }
}

/** What the model itself says against a change is found where the model is read. */
export function changeFaults({ changes = [] }: SweepFile, report: Report): void {
  changes.forEach(({ set, without, with: put }, at) => {
    if ((without === undefined) === (put === undefined))
      report(
        ["changes", at],
        "expected either without or with, and what is taken out or put in: {without: gyro notch}",
      );
    const first = changes.findIndex((other) => (other.without ?? other.with) === (without ?? put));
    if (first < at) report(["changes", at], `"${without ?? put}" is the name of a change above`);
    set.forEach((text, place) => {
      const found = keyAndValue(text);
      if (found === null) report(["changes", at, "set", place], "expected key=value, as sensing.notch=");
      else if (stepsOf(found[0]) === null)
        report(["changes", at, "set", place], `"${found[0]}" is not a key; expected one as frame.parts[2].mass`);
    });
  });
}

/** A fall narrower than the bracket that holds the boundary cannot be distinguished from none; a gate on nothing holds nothing. */
export function gateFaults(file: SweepFile, report: Report): void {
  if (file.strips === undefined)
    for (const key of STRIP_GATES.map(gateKey))
      if (typeof allowedIn(file)[key] === "number")
        report(["gates", key], "the sweep asks for no strips: add strips (yaw or i), or leave the gate out");
  const { boundary_tolerance: tolerance = 0.005 } = file;
  const allowed = allowedIn(file).boundary_fall;
  if (typeof allowed === "number" && allowed < 100 * tolerance)
    report(
      ["gates", "boundary_fall"],
      `${figures(allowed)} % is finer than boundary_tolerance, ${figures(100 * tolerance)} %; allow more or narrow the boundary further`,
    );
}

/** Without a script an axis would be called clean everywhere. */
export function axisFaults(scripts: readonly (Script | null)[], report: Report): void {
  for (const axis of ["roll", "pitch"] as const)
    if (scripts.every((script) => script !== null && !script.axes.includes(axis)))
      report(["scripts"], `none of them tests ${axis}: nothing would speak against any of its gains; add {use: nudge}`);
  scripts.forEach((script, at) => {
    if (script?.axes.every((axis) => axis === "yaw"))
      report(
        ["scripts", at, "use"],
        `"${script.name}" tests yaw alone, which has no map: name it under strips.yaw.scripts`,
      );
  });
}

export function twiceUsed(scripts: readonly (Script | null)[], report: Report): void {
  scripts.forEach((script, at) => {
    const first = scripts.findIndex((other) => other?.name === script?.name);
    if (script !== null && first < at)
      report(["scripts", at, "use"], `"${script.name}" is used above; list all its levels and rates there`);
  });
}
