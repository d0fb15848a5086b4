// gainscape gate: simulate every candidate the sweeps name, compare each with its baseline, exit with the worst outcome.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { shellLine } from "../base/shell-words.js";
import { type Comparison, type ComparisonFiles, compare, comparisonFiles, writeComparison } from "../flow/compare.js";
import { gatePairs, type Pair } from "../flow/gate.js";
import { GATE_NAMES, gateFiles, nightPair, removeGateFiles, writeGateFiles } from "../flow/gate-files.js";
import { comparisonFolder } from "../flow/paths.js";
import { mapFor } from "../flow/run-map.js";
import { type NightPair, nightCounts, renderDriftTable } from "../report/index.js";
import type { Share } from "../run/share.js";
import { nightWords } from "../words/night-words.js";
import { type DrawingErrors, drawingErrors, written } from "./drawing-errors.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { refuseGridAlone } from "./option-values.js";
import { type Recording, type RecordingOptions, recordingOf, refuseRecording } from "./recording.js";
import { shareCommand } from "./share.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { withLock } from "./with-lock.js";

export interface GateOptions extends SimulatingOptions, RecordingOptions {
  readonly baselines: string;
  readonly out?: string;
  readonly shard?: Share;
  /** The folder with every share of the grid, where the draws are shared out. */
  readonly grid?: string;
  readonly unsealed?: boolean;
}

/** Where a gate writes by default. */
export const GATE_OUT = "reports/gate";

interface JudgedPairs extends Comparison {
  /** Those that could be drawn. */
  readonly files: Partial<ComparisonFiles>;
  readonly night: NightPair;
}

export async function gateCommand(sweeps: readonly string[], options: GateOptions): Promise<number> {
  const { baselines, shard } = options;
  refuseGridAlone(options);
  if (shard === undefined)
    return inGateFolder(options.out ?? GATE_OUT, () =>
      judgePairs(gatePairs(sweeps, baselines, options), sweeps, options),
    );
  refuseRecording(options);
  const requests = gatePairs(sweeps, baselines, options);
  const folder = options.out ?? join(GATE_OUT, "shards");
  const command = { name: "gate" as const, sweeps: [...sweeps], baselines };
  const files = requests.map(({ base }) => base.name);
  return shareCommand({ command, requests, share: shard, folder, baselines: files }, options);
}

/** Runs a gate alone in its folder, with the files of the one before removed. */
export const inGateFolder = (folder: string, work: () => Promise<number>): Promise<number> =>
  withLock(folder, () => {
    removeGateFiles(folder);
    return work();
  });

/** Every candidate simulated and compared with its baseline. */
export async function judgePairs(
  pairs: readonly Pair[],
  sweeps: readonly string[],
  options: GateOptions,
): Promise<number> {
  const { out = GATE_OUT, json, quiet } = options;
  const plans = pairs.map(({ plan }) => plan);
  forecast(plans, out, GATE_NAMES, options);
  // Only what decides the outcome, so that shards merged write what one machine writes.
  const command = shellLine(["gainscape", "gate", ...sweeps, "--baselines", options.baselines]);
  const faults = drawingErrors();
  const record = await recordingOf(
    options,
    pairs.map(({ model }) => model.value.name),
  );
  const comparisons: JudgedPairs[] = [];
  for (const pair of pairs) comparisons.push(await comparePair(pair, { out, options, command, faults, record }));
  const nights = comparisons.map(({ night }) => night);
  await faults.attempt(() => writeGateFiles(nights, out, command, options.signal));
  faults.report();
  const files = written(gateFiles(out));
  const counts = nightCounts(nights);
  const outcome = counts.regressions === 0 ? "pass" : "regression";
  if (json) process.stdout.write(`${canonicalJson({ outcome, comparisons: comparisons.map(toJson), files })}\n`);
  else if (!quiet) process.stdout.write(`${nightWords(counts)}. ${Object.values(files).join(", ")}\n`);
  return faults.code(outcome === "pass" ? EXIT.done : EXIT.regression);
}

const toJson = ({ drift: { sweep, base, candidate, outcome, gates, notes }, files }: JudgedPairs) => ({
  sweep,
  base: base.airframe,
  candidate: candidate.airframe,
  outcome,
  gates,
  notes,
  files,
});

/** How every pair of a gate is judged. */
interface Judging {
  readonly out: string;
  readonly options: GateOptions;
  readonly command: string;
  readonly faults: DrawingErrors;
  readonly record: Recording;
}

async function comparePair(
  pair: Pair,
  { out, options, command, faults: { attempt, report }, record }: Judging,
): Promise<JudgedPairs> {
  const map = await withProgress(options, (how) => mapFor(pair, how));
  await record(map);
  const candidate = { name: pair.model.document.file, map };
  const comparison = compare(pair.base, candidate, { command, notes: pair.notes });
  const { sweep, base } = comparison.drift;
  const folder = comparisonFolder(out, sweep.name, base.airframe, comparison.drift.candidate.airframe);
  await attempt(() => writeComparison(comparison, folder, options.signal));
  report();
  const files = written(comparisonFiles(folder));
  const page = files.page === undefined ? "" : `Report: ${files.page}\n`;
  if (!options.quiet && !options.json) process.stdout.write(`${renderDriftTable(comparison.drift)}${page}\n`);
  return { ...comparison, files, night: nightPair(comparison.drift, out, folder, pair.model.document) };
}
