// A file of any of our formats read as a run would read it, without simulating.

import { parseAirframe } from "../airframe/resolve.js";
import { AIRFRAME_FORMAT } from "../airframe/schema.js";
import { problemAt } from "../base/document.js";
import { nearest } from "../base/nearest.js";
import { InputError } from "../base/problem.js";
import { readDocument } from "../files/read.js";
import { parseSweep } from "../sweep/resolve.js";
import { SWEEP_FORMAT } from "../sweep/schema.js";
import { parseScript } from "../sweep/script.js";
import { SCRIPT_FORMAT } from "../sweep/script-schema.js";
import { planFor } from "./plan.js";
import { modelOf, readAirframe } from "./read.js";

const FORMATS = [AIRFRAME_FORMAT, SWEEP_FORMAT, SCRIPT_FORMAT];

/** What the file is, in a few words. A sweep is planned with its model. Throws InputError with every problem found. */
export function checkFile(path: string): string {
  const document = readDocument(path);
  const { data } = document;
  const format = typeof data === "object" && data !== null && "format" in data ? data.format : undefined;
  if (format === AIRFRAME_FORMAT) {
    const { name, version } = parseAirframe(document);
    return `model ${name} ${version}`;
  }
  if (format === SCRIPT_FORMAT) return `script ${parseScript(document).name}`;
  if (format === SWEEP_FORMAT) {
    const sweep = { value: parseSweep(document, readDocument), document };
    if (sweep.value.model === null) return `sweep ${sweep.value.name}, without a model`;
    const plan = planFor(readAirframe(modelOf(sweep)), sweep);
    const trials = plan.variants.length * plan.sweep.grid.p.length * plan.sweep.grid.d.length;
    return `sweep ${plan.sweep.name} of ${plan.airframe.name} ${plan.airframe.version}, ${trials} trials`;
  }
  const near = typeof format === "string" ? nearest(format, FORMATS) : null;
  const message = `expected one of ${FORMATS.join(", ")}${near === null ? "" : ` (did you mean "${near}"?)`}`;
  throw new InputError([problemAt(document, ["format"], format === undefined ? `missing; ${message}` : message)]);
}
