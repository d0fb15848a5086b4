// gainscape gate: fly every pair the sweeps name, hold each against its baseline, leave with the worst outcome.
import { availableParallelism } from "node:os";
import { shellLine } from "../base/shell-words.js";
import { type Comparison, compare, writeComparison } from "../flow/compare.js";
import { gatePairs, type Pair } from "../flow/gate.js";
import { writeNight } from "../flow/night.js";
import { comparisonFolder } from "../flow/paths.js";
import { flownMap } from "../flow/run-map.js";
import { checkOutput } from "../flow/write.js";
import { renderDriftTable } from "../report/index.js";
import { EXIT } from "./exit.js";
import { progressView, SILENT } from "./progress.js";
import { untilInterrupted } from "./signals.js";

export interface GateOptions {
  readonly baselines: string;
  readonly out: string;
  readonly workers?: number;
  readonly quiet?: boolean;
}

export async function gateCommand(
  sweeps: readonly string[],
  options: GateOptions,
  words: readonly string[],
): Promise<number> {
  const pairs = gatePairs(sweeps, options.baselines);
  checkOutput(options.out);
  const comparisons: Comparison[] = [];
  for (const pair of pairs) comparisons.push(await held(pair, options, words));
  const files = writeNight(
    comparisons.map(({ drift }) => drift),
    options.out,
  );
  const regressions = comparisons.filter(({ drift }) => drift.outcome === "regression").length;
  if (!options.quiet)
    process.stdout.write(
      `${comparisons.length} compared, ${regressions} with a regression. ${files.junit}, ${files.summary}\n`,
    );
  return regressions === 0 ? EXIT.done : EXIT.regression;
}

async function held(pair: Pair, options: GateOptions, words: readonly string[]): Promise<Comparison> {
  const view = options.quiet ? SILENT : progressView(process.stderr);
  const workers = options.workers ?? availableParallelism();
  const map = await untilInterrupted((signal) => flownMap(pair, { workers, signal, onProgress: view.show })).finally(
    view.end,
  );
  const candidate = { name: pair.model.document.file, map };
  const comparison = compare(pair.base, candidate, { command: shellLine(["gainscape", ...words]), notes: pair.notes });
  const { sweep, base } = comparison.drift;
  const folder = comparisonFolder(options.out, sweep.name, base.airframe, comparison.drift.candidate.airframe);
  const { page } = await writeComparison(comparison, folder);
  if (!options.quiet) process.stdout.write(`${renderDriftTable(comparison.drift)}Report: ${page}\n\n`);
  return comparison;
}
