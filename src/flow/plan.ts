// One plan from a sweep and an airframe. What this airframe cannot do is a problem of the sweep file; gains that cannot
// hold an axis are one of the model file.
import type { Airframe } from "../airframe/airframe.js";
import { drawsOf } from "../airframe/draws.js";
import { problemAt } from "../base/document.js";
import { InputError, type Path, type Problem } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { type Plan, planSweep, type SharedPlan } from "../plan/plan.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { setWords } from "./changed-model.js";
import type { WithDocument } from "./read.js";
import { unmovedFaults } from "./unmoved.js";

/** Draws that lines chosen by theory are to suit: their boundary from 5 to 95 of 100. */
const DRAWS_FOR_GRID = 16;

function drawnForGrid(
  { value, document }: WithDocument<Airframe>,
  { grid, uncertainty, seed }: RequestedSweep,
): Airframe[] {
  if (uncertainty === undefined || value.spreads === undefined) return [];
  if (!("auto" in grid.roll || "auto" in grid.pitch)) return [];
  const options = { count: DRAWS_FOR_GRID, seed, purpose: "grid", loopGain: uncertainty.loopGain };
  return drawsOf(document, options).draws.map(({ airframe }) => airframe);
}

/** Of a model with keys set anew: no line of its file. */
function modelProblem({ value, document }: WithDocument<Airframe>, path: Path, message: string): Problem {
  const problem = problemAt(document, path, message, "key");
  return value.changed === undefined ? problem : { ...problem, file: shellLine([problem.file, ...setWords(value)]) };
}

/**
 * The plan of a sweep for an airframe. Throws InputError where a condition cannot be simulated, an axis is not stabilised, or
 * an axis never moves.
 */
export function planFor(
  airframe: WithDocument<Airframe>,
  sweep: WithDocument<RequestedSweep>,
  shared?: SharedPlan,
): Plan {
  const plan = planSweep(airframe.value, sweep.value, {
    ...shared,
    ...(shared?.grid === undefined ? { drawn: drawnForGrid(airframe, sweep.value) } : {}),
  });
  const faults = "variants" in plan ? unmovedFaults(plan) : plan;
  if ("variants" in plan && faults.length === 0) return plan;
  throw new InputError(
    faults.map(({ file, path, message }) =>
      file === "sweep" ? problemAt(sweep.document, path, message) : modelProblem(airframe, path, message),
    ),
  );
}
