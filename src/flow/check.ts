// A file of any of our formats read as a run would read it, without simulating.

import { parseAirframe } from "../airframe/resolve.js";
import { AIRFRAME_FORMAT } from "../airframe/schema.js";
import { problemAt } from "../base/document.js";
import { nearest } from "../base/nearest.js";
import { InputError, type Path, type Problem, Problems } from "../base/problem.js";
import { pointCount } from "../base/sizes.js";
import { readDocument } from "../files/read.js";
import type { Plan } from "../plan/plan.js";
import { parseSweep, pathFromSweep } from "../sweep/resolve.js";
import { SWEEP_FORMAT } from "../sweep/schema.js";
import { parseScript } from "../sweep/script.js";
import { SCRIPT_FORMAT } from "../sweep/script-schema.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { refuseOthers } from "./file-kind.js";
import { planFor } from "./plan.js";
import { openScript, readAirframe, type WithDocument } from "./read.js";

const FORMATS = [AIRFRAME_FORMAT, SWEEP_FORMAT, SCRIPT_FORMAT];

/**
 * What the file is, in a few words. A sweep is planned with its model, and with those a gate would compare. Throws
 * InputError with every problem found.
 */
export function checkFile(path: string): string {
  refuseOthers(path, ["model", "sweep", "script"], "a model, sweep or script");
  const document = readDocument(path);
  const { data } = document;
  const format = typeof data === "object" && data !== null && "format" in data ? data.format : undefined;
  if (format === AIRFRAME_FORMAT) {
    const { name, version } = parseAirframe(document);
    return `model ${name} ${version}`;
  }
  if (format === SCRIPT_FORMAT) return `script ${parseScript(document).name}`;
  if (format === SWEEP_FORMAT) {
    const sweep = { value: parseSweep(document, openScript), document };
    const plan = plannedWithAll(sweep);
    if (plan === null) return `sweep ${sweep.value.name}, without a model`;
    const trials = plan.variants.reduce((sum, { axis }) => sum + pointCount(plan.sweep.grid[axis]), 0);
    return `sweep ${plan.sweep.name} of ${plan.airframe.name} ${plan.airframe.version}, ${trials} trials`;
  }
  const near = typeof format === "string" ? nearest(format, FORMATS) : null;
  const message = `expected one of ${FORMATS.join(", ")}${near === null ? "" : ` (did you mean "${near}"?)`}`;
  throw new InputError([problemAt(document, ["format"], format === undefined ? `missing; ${message}` : message)]);
}

/** The plan with the sweep's own model, null where it names none; each model it names is planned with. */
function plannedWithAll(sweep: WithDocument<RequestedSweep>): Plan | null {
  const { document, value } = sweep;
  const { model, candidates } = value.baseline ?? { model: null, candidates: [] };
  const problems = new Problems();
  const plans = new Map<string, Plan | null>();
  const planned = (named: string, path: Path): Plan | null => {
    const file = pathFromSweep(document.file, named);
    // a model that cannot be opened is a fault of the line that names it
    const ours = (p: Problem): Problem => (p.line > 0 ? p : problemAt(document, path, `${p.file}: ${p.message}`));
    if (!plans.has(file))
      plans.set(
        file,
        problems.attempt(() => planFor(readAirframe(file), sweep), ours),
      );
    return plans.get(file) ?? null;
  };
  const plan = value.model === null ? null : planned(value.model, ["model"]);
  if (model !== null) planned(model, ["baseline", "model"]);
  for (const [at, named] of candidates.entries()) planned(named, ["baseline", "candidates", at]);
  problems.throwIfAny();
  return plan;
}
