// Faults of a plan as problems of the files: what this craft cannot do is one of the sweep file; gains that cannot hold an axis are
// one of the model file.
import type { Airframe } from "../airframe/airframe.js";
import { problemAt } from "../base/document.js";
import { InputError, type Path, type Problem } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import type { PlanFault } from "../plan/fault.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { setWords } from "./changed-model.js";
import type { WithDocument } from "./read.js";

/** Of a model with keys set anew: no line of its file. */
function modelProblem({ value, document }: WithDocument<Airframe>, path: Path, message: string): Problem {
  const problem = problemAt(document, path, message, "key");
  return value.changed === undefined ? problem : { ...problem, file: shellLine([problem.file, ...setWords(value)]) };
}

export const planProblems = (
  faults: readonly PlanFault[],
  airframe: WithDocument<Airframe>,
  sweep: WithDocument<RequestedSweep>,
): InputError =>
  new InputError(
    faults.map(({ file, path, message }) =>
      file === "sweep" ? problemAt(sweep.document, path, message) : modelProblem(airframe, path, message),
    ),
  );
