// gainscape compare: two maps, or one sweep and two models; compare, report, write.
import { join } from "node:path";
import { at } from "../base/at.js";
import { canonicalJson } from "../base/canonical.js";
import { fileProblem, InputError } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { comparablePlans } from "../flow/comparable-plans.js";
import { compare, comparisonFiles, type NamedMap, writeComparison } from "../flow/compare.js";
import { checkMapOwner } from "../flow/owner.js";
import { comparisonFolder } from "../flow/paths.js";
import { readAirframe, readSweep } from "../flow/read.js";
import { readMap } from "../flow/read-map.js";
import { type MapRequest, mapFor } from "../flow/run-map.js";
import { checkOutput, outputFolder, REPORT_NAMES, writeReport } from "../flow/write.js";
import type { StabilityMap } from "../map/format.js";
import { renderDriftTable } from "../report/index.js";
import { type DrawingErrors, drawingErrors, written } from "./drawing-errors.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { mapToReuse } from "./map-to-reuse.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { withLock } from "./with-lock.js";

export interface CompareOptions extends SimulatingOptions {
  readonly from?: string;
  readonly to?: string;
  readonly out?: string;
  readonly fresh?: boolean;
  readonly unsealed?: boolean;
}

/** Where comparisons go by default. */
const COMPARISONS = "reports/comparisons";

type Model = ReturnType<typeof readAirframe>;

export async function compareCommand(
  first: string,
  second: string | undefined,
  options: CompareOptions,
  words: readonly string[],
): Promise<number> {
  if (options.out !== undefined) checkOutput(options.out);
  const faults = drawingErrors();
  const [base, candidate] = await bothSides(first, second, options, faults);
  const comparison = compare(base, candidate, { command: shellLine(["gainscape", ...words]) });
  const { drift } = comparison;
  const standard = comparisonFolder(COMPARISONS, drift.sweep.name, drift.base.airframe, drift.candidate.airframe);
  const folder = options.out ?? standard;
  checkOutput(folder);
  await faults.attempt(() => writeComparison(comparison, folder, options.signal));
  faults.report();
  const files = written(comparisonFiles(folder));
  const page = files.page === undefined ? "" : `Report: ${files.page}\n`;
  if (options.json)
    process.stdout.write(
      `${canonicalJson({ outcome: drift.outcome, gates: drift.gates, notes: drift.notes, files })}\n`,
    );
  else if (!options.quiet) process.stdout.write(`${renderDriftTable(drift)}${page}`);
  return faults.code(drift.outcome === "pass" ? EXIT.done : EXIT.regression);
}

async function bothSides(
  first: string,
  second: string | undefined,
  options: CompareOptions,
  faults: DrawingErrors,
): Promise<readonly [NamedMap, NamedMap]> {
  const { from, to } = options;
  const modelsGiven = from !== undefined || to !== undefined;
  if (second !== undefined && !modelsGiven)
    return [
      { name: first, map: readMap(first, options) },
      { name: second, map: readMap(second, options) },
    ];
  if (second === undefined && from !== undefined && to !== undefined)
    return simulatedSides(first, [from, to], options, faults);
  const usage =
    "expected two maps (gainscape compare BASE CANDIDATE), or a sweep and two models (SWEEP --from MODEL --to MODEL)";
  throw new InputError([fileProblem("gainscape compare", usage)]);
}

/** Both models under one sweep, checked before either is simulated; a map that is already there is used. */
async function simulatedSides(
  path: string,
  models: readonly [string, string],
  options: CompareOptions,
  faults: DrawingErrors,
): Promise<readonly [NamedMap, NamedMap]> {
  const sweep = readSweep(path);
  const sides = models.map(readAirframe) as [Model, Model];
  const plans = comparablePlans(sides, sweep);
  const [base, candidate] = sides.map(({ value }) => value) as [Model["value"], Model["value"]];
  const [from, to] = models;
  const command = shellLine(["gainscape", "compare", path, "--from", from, "--to", to]);
  const requests = plans.map((plan, side): MapRequest & { readonly folder: string } => {
    const request = { sweep, model: at(sides, side), plan };
    if (!plan.shared) return { ...request, folder: outputFolder(plan) };
    // Not the map that a sweep of the model would write there.
    const pair = comparisonFolder(COMPARISONS, plan.sweep.name, base, candidate);
    return { ...request, command, folder: join(pair, side === 0 ? "base" : "candidate") };
  });
  const folders = requests.map(({ folder }) => folder);
  for (const [side, { model }] of requests.entries()) {
    checkOutput(at(folders, side), { names: REPORT_NAMES });
    checkMapOwner(at(folders, side), model.value);
  }
  const maps: NamedMap[] = [];
  for (const [side, request] of requests.entries()) {
    const folder = at(folders, side);
    const reused = mapToReuse(request.plan, folder, options);
    maps.push({
      name: request.model.document.file,
      map: reused ?? (await simulatedMap(request, folder, options, faults)),
    });
    faults.report();
  }
  return maps as [NamedMap, NamedMap];
}

const simulatedMap = (
  request: MapRequest,
  folder: string,
  options: CompareOptions,
  { attempt }: DrawingErrors,
): Promise<StabilityMap> =>
  withLock(folder, () => {
    forecast([request.plan], folder, REPORT_NAMES, options);
    return withProgress(options, async (how) => {
      const map = await mapFor(request, how);
      await attempt(() => writeReport(map, folder, how));
      return map;
    });
  });
