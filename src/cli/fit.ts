// gainscape fit: what flights say about their model, as text, page and fit.json, and with --out a new version of the model.
import { canonicalJson } from "../base/canonical.js";
import { printable } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { fitFlights } from "../flow/fit.js";
import { checkNew, firstTune, writeModel } from "../flow/new-model.js";
import { checkOutput } from "../flow/output.js";
import { FIT_NAMES, fitFolder, writeFit } from "../flow/write-fit.js";
import { fitText } from "../report/index.js";
import { EXIT } from "./exit.js";

export interface FitOptions {
  readonly model?: string;
  readonly sweep?: string;
  readonly out?: string;
  readonly report?: string;
  readonly quiet?: boolean;
  readonly json?: boolean;
  readonly signal: AbortSignal;
}

export async function fitCommand(
  files: readonly string[],
  options: FitOptions,
  words: readonly string[],
): Promise<number> {
  const { out, signal } = options;
  if (out !== undefined) checkNew(out);
  if (options.report !== undefined) checkOutput(options.report, { names: FIT_NAMES });
  const sweep = options.sweep ?? firstTune();
  const command = shellLine(["gainscape", ...words]);
  const { file, model } = await fitFlights({ files, model: options.model ?? null, sweep, out: out ?? null, command });
  const folder = options.report ?? fitFolder(file.model);
  checkOutput(folder, { names: FIT_NAMES });
  await unlessInterrupted(signal, folder);
  if (out !== undefined) writeModel(model.text, out);
  const written = await writeFit(file, folder, signal);
  if (options.json) process.stdout.write(`${canonicalJson({ fit: file, files: written, model: out ?? null })}\n`);
  else if (!options.quiet) process.stdout.write(`${fitText(file)}${after(written.page, out, sweep)}`);
  return EXIT.done;
}

function after(page: string, out: string | undefined, sweep: string): string {
  const lines = [
    `Page: ${page}`,
    ...(out === undefined
      ? ["No model was written; --out FILE writes the new version."]
      : [`New version: ${out}. Next:`, `  ${shellLine(["gainscape", "sweep", sweep, "--model", out])}`]),
  ];
  return `${lines.map(printable).join("\n")}\n`;
}
