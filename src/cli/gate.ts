// gainscape gate: fly every pair the sweeps name, hold each against its baseline, leave with the worst outcome.
import { join } from "node:path";
import { shellLine } from "../base/shell-words.js";
import { type Comparison, compare, writeComparison } from "../flow/compare.js";
import { gatePairs, type Pair } from "../flow/gate.js";
import { writeNight } from "../flow/night.js";
import { comparisonFolder } from "../flow/paths.js";
import { flownMap } from "../flow/run-map.js";
import { checkOutput } from "../flow/write.js";
import { renderDriftTable } from "../report/index.js";
import type { Share } from "../run/share.js";
import { EXIT } from "./exit.js";
import { type FlyingOptions, flying } from "./flying.js";
import { shareCommand } from "./share.js";

export interface GateOptions extends FlyingOptions {
  readonly baselines: string;
  readonly out?: string;
  readonly shard?: Share;
}

const OUT = "reports/gate";

export async function gateCommand(sweeps: readonly string[], options: GateOptions): Promise<number> {
  const { baselines, shard } = options;
  const pairs = gatePairs(sweeps, baselines);
  if (shard === undefined) return heldPairs(pairs, sweeps, options);
  const plans = pairs.map(({ plan }) => plan);
  const folder = options.out ?? join(OUT, "shards");
  return shareCommand({ name: "gate", sweeps: [...sweeps], baselines }, plans, shard, folder, options);
}

/** Every pair flown and held against its baseline. */
export async function heldPairs(
  pairs: readonly Pair[],
  sweeps: readonly string[],
  options: GateOptions,
): Promise<number> {
  const { out = OUT } = options;
  checkOutput(out);
  // Only what decides the outcome, so that shards merged write what one machine writes.
  const command = shellLine(["gainscape", "gate", ...sweeps, "--baselines", options.baselines]);
  const comparisons: Comparison[] = [];
  for (const pair of pairs) comparisons.push(await held(pair, out, options, command));
  const drifts = comparisons.map(({ drift }) => drift);
  const files = await writeNight(drifts, out, options.signal);
  const regressions = comparisons.filter(({ drift }) => drift.outcome === "regression").length;
  if (!options.quiet)
    process.stdout.write(
      `${comparisons.length} compared, ${regressions} with a regression. ${files.junit}, ${files.summary}\n`,
    );
  return regressions === 0 ? EXIT.done : EXIT.regression;
}

async function held(pair: Pair, out: string, options: GateOptions, command: string): Promise<Comparison> {
  const map = await flying(options, (how) => flownMap(pair, how));
  const candidate = { name: pair.model.document.file, map };
  const comparison = compare(pair.base, candidate, { command, notes: pair.notes });
  const { sweep, base } = comparison.drift;
  const folder = comparisonFolder(out, sweep.name, base.airframe, comparison.drift.candidate.airframe);
  const { page } = await writeComparison(comparison, folder, options.signal);
  if (!options.quiet) process.stdout.write(`${renderDriftTable(comparison.drift)}Report: ${page}\n\n`);
  return comparison;
}
