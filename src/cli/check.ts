// gainscape check: read each file as a sweep would, report every problem, say what follows from a model and what a log holds; simulate
// nothing.
import { canonicalJson } from "../base/canonical.js";
import { Problems, printable } from "../base/problem.js";
import { type CheckedFile, checkFile } from "../flow/check.js";
import { renderFlight, renderSheet } from "../report/index.js";
import { EXIT } from "./exit.js";

export interface CheckOptions {
  /** Each "key=value", set anew in every model. */
  readonly set?: readonly string[];
  readonly quiet?: boolean;
  readonly json?: boolean;
}

const SHEET_FORMAT = "gainscape.sheet/1";

/** With `json` the outcome is one document, and none where a file has a problem. */
export async function checkCommand(files: readonly string[], { set, quiet, json }: CheckOptions): Promise<number> {
  const problems = new Problems();
  const checked: CheckedFile[] = [];
  for (const file of files) {
    const found = await problems.attemptLater(() => checkFile(file, set));
    if (found === null) continue;
    checked.push(found);
    if (!quiet && !json) process.stdout.write(fileText(found));
  }
  problems.throwIfAny();
  if (json) process.stdout.write(`${canonicalJson({ format: SHEET_FORMAT, files: checked })}\n`);
  return EXIT.done;
}

function fileText(checked: CheckedFile): string {
  const head = `${printable(`${checked.file}: ${checked.is}`)}\n`;
  if (checked.kind === "model") return `${head}\n${renderSheet(checked.sheet)}\n`;
  if (checked.kind === "flight") return `${head}${renderFlight(checked.flight)}`;
  if (checked.kind !== "sweep" || checked.model === null || checked.model.warnings.length === 0) return head;
  const count = checked.model.warnings.length;
  const hint = `${count} unlikely ${count === 1 ? "thing" : "things"} in its model: gainscape check ${checked.model.file}`;
  return `${head}  ${printable(hint)}\n`;
}
