// What a gate compares: every pair of models its sweeps name, all of them checked before anything is simulated.
import { problemAt } from "../base/document.js";
import { fileProblem, InputError, type Problem, Problems } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { planOf, requestDifferences } from "../compare/question.js";
import { isFile } from "../files/folder.js";
import { isChanged } from "../map/changed.js";
import { pathFromSweep } from "../sweep/resolve.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { baselinePlan, lastsLonger, sharedWith } from "./comparable-plans.js";
import { type NamedMap, notComparable } from "./compare.js";
import { foreignTo } from "./owner.js";
import { baselineFile, comparisonFolder } from "./paths.js";
import { planFor } from "./plan.js";
import { modelOf, readAirframe, readSweep, type WithDocument } from "./read.js";
import { readMap, type SealOptions } from "./read-map.js";
import type { MapRequest } from "./run-map.js";

export interface Pair extends MapRequest {
  readonly base: NamedMap;
  readonly notes: readonly string[];
}

/** The request for the map of a sweep's baseline. */
export function baselineRequest(path: string, model?: string): MapRequest {
  const sweep = readSweep(path);
  const base = readAirframe(model ?? baselineModel(sweep));
  const candidates = sweep.value.baseline?.candidates ?? [];
  const others = candidates.map((named) => () => readAirframe(pathFromSweep(path, named)));
  return { sweep, model: base, plan: baselinePlan(base, sweep, others) };
}

function baselineModel(sweep: WithDocument<RequestedSweep>): string {
  const named = sweep.value.baseline?.model ?? null;
  return named === null ? modelOf(sweep) : pathFromSweep(sweep.document.file, named);
}

/** Every pair of the sweeps, in their order. InputError with the problems of all of them. */
export function gatePairs(sweeps: readonly string[], baselines: string, options: SealOptions = {}): Pair[] {
  const problems = new Problems();
  const pairs = sweeps.flatMap((path) => problems.attempt(() => pairsOf(path, baselines, problems, options)) ?? []);
  for (const problem of sameFolderProblems(pairs)) problems.add(problem);
  problems.throwIfAny();
  return pairs;
}

/** Pairs that would write into one folder, the later over the earlier. */
function sameFolderProblems(pairs: readonly Pair[]): Problem[] {
  const first = new Map<string, Pair>();
  return pairs.flatMap((pair) => {
    const folder = comparisonFolder("", pair.plan.sweep.name, pair.base.map.airframe, pair.model.value);
    const earlier = first.get(folder);
    if (earlier !== undefined) return [sameFolderProblem(pair, earlier)];
    first.set(folder, pair);
    return [];
  });
}

function sameFolderProblem({ sweep, model }: Pair, earlier: Pair): Problem {
  const { name, version } = model.value;
  if (sweep === earlier.sweep)
    return fileProblem(
      model.document.file,
      `"${name}" "${version}" again, as ${earlier.model.document.file}: each candidate of a sweep needs a name or version of its own`,
    );
  const { file } = sweep.document;
  if (file === earlier.sweep.document.file) return fileProblem(file, "named twice for one gate");
  return fileProblem(
    file,
    `"${sweep.value.name}" with "${name}" "${version}" again, as ${earlier.sweep.document.file}: each sweep of a gate needs a name of its own`,
  );
}

function pairsOf(path: string, baselines: string, problems: Problems, options: SealOptions): Pair[] {
  const sweep = readSweep(path);
  const { baseline } = sweep.value;
  if (baseline === null) throw new InputError([problemAt(sweep.document, ["baseline"], NO_BASELINE)]);
  const baselineSide = readBaseline(sweep, baselines, options);
  const differ = requestDifferences(planOf(baselineSide.base.map).sweep, sweep.value);
  if (differ.length > 0) throw notComparable(baselineSide.base.name, sweep.document.file, differ);
  return baseline.candidates.flatMap((named) => {
    const pair = problems.attempt(() => pairOf(sweep, baselineSide, pathFromSweep(path, named), baselines));
    return pair === null ? [] : [pair];
  });
}

const NO_BASELINE =
  'missing: it names the models a gate compares (try "baseline: {candidates: [../models/sandpiper-r2.yaml]}")';

function readBaseline(
  sweep: WithDocument<RequestedSweep>,
  baselines: string,
  options: SealOptions,
): Pick<Pair, "base" | "notes"> {
  const model = readAirframe(baselineModel(sweep));
  const file = baselineFile(baselines, sweep.value.name, model.value);
  if (!isFile(file)) {
    const message = `no baseline ${file} yet; gainscape baseline ${sweep.document.file} writes it`;
    throw new InputError([problemAt(sweep.document, ["baseline"], message)]);
  }
  const map = readMap(file, options);
  const strange = foreignTo(model.value, map.airframe, file, "baseline");
  if (strange !== null) throw new InputError([strange]);
  if (isChanged(map))
    throw new InputError([
      fileProblem(file, "holds the map of a model changed with --set, which is no side of a gate"),
    ]);
  const edited = map.airframe.digest !== planFor(model, sweep).digests.airframe;
  const note = `${model.document.file} was edited after its baseline was written: the base is the older craft.`;
  return { base: { name: file, map }, notes: edited ? [note] : [] };
}

function pairOf(
  sweep: WithDocument<RequestedSweep>,
  { base, notes }: Pick<Pair, "base" | "notes">,
  modelFile: string,
  baselines: string,
): Pair {
  const model = readAirframe(modelFile);
  const shared = sharedWith(base.map);
  const plan = planFor(model, sweep, shared);
  const slower = lastsLonger(plan, shared.tailEnds)
    ? [`${modelFile} swings too slowly for the baseline's tails and got longer ones: write the baseline again.`]
    : [];
  const command = shellLine(["gainscape", "gate", sweep.document.file, "--baselines", baselines]);
  return { sweep, model, plan, base, notes: [...notes, ...slower], ...(plan.shared ? { command } : {}) };
}
