// gainscape init: a repository of one's own around a new model, with a baseline and a job for the night.
import { join } from "node:path";
import { printable } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { checkRepository, type Repository, repositoryAt, writeRepository } from "../flow/repository.js";
import { baselineCommand } from "./baseline.js";
import { EXIT } from "./exit.js";
import { answeredModel, type NewOptions } from "./new.js";
import type { SimulatingOptions } from "./simulating.js";

export type InitOptions = NewOptions & SimulatingOptions;

export async function initCommand(folder: string, options: InitOptions): Promise<number> {
  const { model } = await answeredModel(folder, options, (made) => checkRepository(repositoryAt(folder, made)));
  const files = repositoryAt(folder, model);
  await unlessInterrupted(options.signal, folder);
  writeRepository(files, model);
  const baselines = join(folder, "reports/baselines");
  const code = await baselineCommand(files.night, { ...options, baselines, quiet: true });
  if (options.quiet !== true && code === EXIT.done)
    process.stdout.write(`${outcomeLines(files, baselines).map(printable).join("\n")}\n`);
  return code;
}

function outcomeLines({ ignored: _, ...files }: Repository, baselines: string): string[] {
  return [
    `Written: ${Object.values(files).join(", ")}, and the baseline below ${baselines}, to be reviewed and committed.`,
    "Next: look the model through, then",
    `  ${shellLine(["gainscape", "check", files.model])}`,
    `  ${shellLine(["gainscape", "sweep", files.firstTune])}`,
    `  ${shellLine(["gainscape", "gate", files.night])}`,
  ];
}
