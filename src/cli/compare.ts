// gainscape compare: two maps, one sweep and two models, or a model and a change of it; compare, report, write.
import { join } from "node:path";
import { at } from "../base/at.js";
import { canonicalJson } from "../base/canonical.js";
import { fileProblem, InputError } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { changedModel, readModelToChange } from "../flow/changed-model.js";
import { comparablePlans } from "../flow/comparable-plans.js";
import { compare, comparisonFiles, type NamedMap, writeComparison } from "../flow/compare.js";
import { checkOutput, outputFolder, REPORT_NAMES } from "../flow/output.js";
import { checkMapOwner } from "../flow/owner.js";
import { comparisonFolder } from "../flow/paths.js";
import { readAirframe, readSweep } from "../flow/read.js";
import { readMap } from "../flow/read-map.js";
import { type MapRequest, mapFor } from "../flow/run-map.js";
import { writeReport } from "../flow/write.js";
import type { StabilityMap } from "../map/format.js";
import { renderDriftTable } from "../report/index.js";
import { type DrawingErrors, drawingErrors, written } from "./drawing-errors.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { mapToReuse } from "./map-to-reuse.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { theoryLine, whatIfCommand } from "./what-if.js";
import { withLock } from "./with-lock.js";

export interface CompareOptions extends SimulatingOptions {
  readonly from?: string;
  readonly to?: string;
  /** Each "key=value": the one model given is compared with itself changed. */
  readonly set?: readonly string[];
  /** The sweep that simulates both; absent: theory answers alone. */
  readonly sweep?: string;
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
  const isByTheory = checkedUsage(second, options);
  if (isByTheory) return whatIfCommand(first, options);
  if (options.out !== undefined) checkOutput(options.out);
  const faults = drawingErrors();
  const [base, candidate] = await bothSides(first, second, options, faults);
  const theory = options.set === undefined ? null : theoryLine(first, options.set);
  const notes = theory === null ? [] : [theory];
  const comparison = compare(base, candidate, { command: shellLine(["gainscape", ...words]), notes });
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
  else if (!options.quiet) {
    const table = renderDriftTable({ ...drift, notes: drift.notes.filter((note) => note !== theory) });
    process.stdout.write(`${theory === null ? "" : `${theory}\n\n`}${table}${page}`);
  }
  return faults.code(drift.outcome === "pass" ? EXIT.done : EXIT.regression);
}

async function bothSides(
  first: string,
  second: string | undefined,
  options: CompareOptions,
  faults: DrawingErrors,
): Promise<readonly [NamedMap, NamedMap]> {
  const { from, to, set, sweep } = options;
  if (set !== undefined && sweep !== undefined) {
    const command = ["gainscape", "compare", first, ...set.flatMap((text) => ["--set", text]), "--sweep", sweep];
    const models = () => {
      const model = readModelToChange(first);
      return [model, changedModel(model, set)] as const;
    };
    return simulatedSides({ sweep, models, command }, options, faults);
  }
  if (second !== undefined)
    return [
      { name: first, map: readMap(first, options) },
      { name: second, map: readMap(second, options) },
    ];
  const [base, candidate] = [from ?? "", to ?? ""];
  const command = ["gainscape", "compare", first, "--from", base, "--to", candidate];
  const models = () => [readAirframe(base), readAirframe(candidate)] as const;
  return simulatedSides({ sweep: first, models, command }, options, faults);
}

/** Whether theory answers alone. InputError where the options make no question. */
function checkedUsage(second: string | undefined, { set, sweep, from, to, out }: CompareOptions): boolean {
  const modelsGiven = from !== undefined || to !== undefined;
  const refuse = (usage: string) => new InputError([fileProblem("gainscape compare", usage)]);
  if (set !== undefined) {
    if (second !== undefined || modelsGiven)
      throw refuse(
        "--set changes one model; expected gainscape compare MODEL --set key=value, and --sweep to simulate it",
      );
    if (sweep === undefined && out !== undefined)
      throw refuse("--out is for what is simulated; expected --sweep SWEEP beside it");
    return sweep === undefined;
  }
  if (sweep !== undefined) throw refuse("--sweep is for a changed model; expected --set key=value beside it");
  if (second === undefined ? from !== undefined && to !== undefined : !modelsGiven) return false;
  throw refuse(
    "expected two maps (gainscape compare BASE CANDIDATE), a sweep and two models (SWEEP --from MODEL --to MODEL), or a model and a change (MODEL --set key=value)",
  );
}

interface Question {
  readonly sweep: string;
  /** Read after the sweep, whose faults come first. */
  readonly models: () => readonly [Model, Model];
  /** What makes both again. */
  readonly command: readonly string[];
}

/** Both models under one sweep, checked before either is simulated; a map that is already there is used. */
async function simulatedSides(
  question: Question,
  options: CompareOptions,
  faults: DrawingErrors,
): Promise<readonly [NamedMap, NamedMap]> {
  const sweep = readSweep(question.sweep);
  const sides = question.models();
  const plans = comparablePlans(sides, sweep);
  const [base, candidate] = sides.map(({ value }) => value) as [Model["value"], Model["value"]];
  const command = shellLine(question.command);
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
