// A file of any of our formats read as a run would read it, without simulating.

import type { Airframe } from "../airframe/airframe.js";
import { parseAirframe } from "../airframe/resolve.js";
import { AIRFRAME_FORMAT } from "../airframe/schema.js";
import { problemAt } from "../base/document.js";
import { nearest } from "../base/nearest.js";
import { InputError, type Path, type Problem, Problems } from "../base/problem.js";
import { pointCount } from "../base/sizes.js";
import { ANSWERS_FORMAT } from "../estimate/answers.js";
import { readDocument } from "../files/read.js";
import { FLIGHT_FORMAT } from "../flight/schema.js";
import { type FlightSummary, flightSummary } from "../flight/summary.js";
import type { Plan } from "../plan/plan.js";
import type { Sheet, SheetWarning } from "../sheet/format.js";
import { sheetOf } from "../sheet/sheet.js";
import { parseSweep, pathFromSweep } from "../sweep/resolve.js";
import { SWEEP_FORMAT } from "../sweep/schema.js";
import { parseScript } from "../sweep/script.js";
import { SCRIPT_FORMAT } from "../sweep/script-schema.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { readAnswers } from "./answers.js";
import { changedModel, readModelToChange } from "./changed-model.js";
import { changeRequests } from "./changes.js";
import { refuseOthers } from "./file-kind.js";
import { newModel } from "./new-model.js";
import { planFor } from "./plan.js";
import { openScript, readAirframe, type WithDocument } from "./read.js";
import { readFlight } from "./read-flight.js";

const FORMATS = [AIRFRAME_FORMAT, SWEEP_FORMAT, SCRIPT_FORMAT, ANSWERS_FORMAT, FLIGHT_FORMAT];

interface Checked {
  readonly file: string;
  /** What it is, in a few words. */
  readonly is: string;
}

export interface CheckedModel extends Checked {
  readonly kind: "model";
  readonly sheet: Sheet;
}

export interface CheckedSweep extends Checked {
  readonly kind: "sweep";
  /** The model the sweep names; null: it names none. */
  readonly model: {
    readonly file: string;
    readonly name: string;
    readonly version: string;
    readonly warnings: readonly SheetWarning[];
  } | null;
}

export interface CheckedScript extends Checked {
  readonly kind: "script";
}

export interface CheckedAnswers extends Checked {
  readonly kind: "answers";
}

export interface CheckedFlight extends Checked {
  readonly kind: "flight";
  readonly flight: FlightSummary;
}

export type CheckedFile = CheckedModel | CheckedSweep | CheckedScript | CheckedAnswers | CheckedFlight;

/**
 * What the file is, the sheet of a model, what a flight's log holds. A sweep is planned with its model, and with those a gate
 * would compare. With `set` the file is a model, and the sheet that of the changed one. Rejects with InputError: every problem found.
 */
export async function checkFile(file: string, set?: readonly string[]): Promise<CheckedFile> {
  if (set !== undefined) return checkedModel(changedModel(readModelToChange(file), set), file);
  refuseOthers(file, ["model", "sweep", "script", "answers", "flight"], "a model, sweep, script, answers or a flight");
  const document = readDocument(file);
  const { data } = document;
  const format = typeof data === "object" && data !== null && "format" in data ? data.format : undefined;
  if (format === AIRFRAME_FORMAT) return checkedModel({ value: parseAirframe(document), document }, file);
  if (format === ANSWERS_FORMAT) {
    const { airframe } = newModel(readAnswers(file, {}), file);
    return { file, kind: "answers", is: `answers for ${airframe.name} ${airframe.version}` };
  }
  if (format === SCRIPT_FORMAT) return { file, kind: "script", is: `script ${parseScript(document).name}` };
  if (format === SWEEP_FORMAT) return checkedSweep(file, { value: parseSweep(document, openScript), document });
  if (format === FLIGHT_FORMAT) return checkedFlight(file);
  const near = typeof format === "string" ? nearest(format, FORMATS) : null;
  const message = `expected one of ${FORMATS.join(", ")}${near === null ? "" : ` (did you mean "${near}"?)`}`;
  throw new InputError([problemAt(document, ["format"], format === undefined ? `missing; ${message}` : message)]);
}

function checkedModel({ value }: WithDocument<Airframe>, file: string): CheckedModel {
  return { file, kind: "model", is: `model ${value.name} ${value.version}`, sheet: sheetOf(value) };
}

async function checkedFlight(file: string): Promise<CheckedFlight> {
  const { flight, model, modelFile, log, logFile } = await readFlight(file);
  const summary = flightSummary(flight, log, { model: modelFile, log: logFile }, model.value);
  const { name, version } = summary.model;
  return { file, kind: "flight", is: `flight "${flight.title}" of ${name} ${version}`, flight: summary };
}

function checkedSweep(file: string, sweep: WithDocument<RequestedSweep>): CheckedSweep {
  const plan = plannedWithAll(sweep);
  if (plan === null || sweep.value.model === null)
    return { file, kind: "sweep", is: `sweep ${sweep.value.name}, without a model`, model: null };
  const { name, version } = plan.airframe;
  const trials = plan.variants.reduce((sum, { axis }) => sum + pointCount(plan.sweep.grid[axis]), 0);
  return {
    file,
    kind: "sweep",
    is: `sweep ${plan.sweep.name} of ${name} ${version}, ${trials} trials`,
    model: { file: pathFromSweep(file, sweep.value.model), name, version, warnings: sheetOf(plan.airframe).warnings },
  };
}

/** The plan with the sweep's own model, null where it names none; each model it names is planned with, and each change of it. */
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
  if (plan !== null && value.model !== null)
    changeRequests({ sweep, model: readAirframe(pathFromSweep(document.file, value.model)), plan });
  return plan;
}
