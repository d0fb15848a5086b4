// The map of a sweep and a model: from the cache where nothing has changed since, else simulated.
import { canonicalJson } from "../base/canonical.js";
import { InputError } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { pointCount } from "../base/sizes.js";
import { version } from "../base/version.js";
import { planOf } from "../compare/question.js";
import type { StabilityMap } from "../map/format.js";
import { unknownMeasures } from "../map/older-measures.js";
import type { Plan } from "../plan/plan.js";
import { setWords } from "./changed-model.js";
import { planFor } from "./plan.js";
import { mapOf, readMap, type SealOptions } from "./read-map.js";
import { type SweepQuestion, sweepQuestion } from "./request.js";
import type { RunnerChoice } from "./runner.js";
import { simulate } from "./simulate.js";
import type { Progress, RunFigures } from "./tracked-runs.js";

export interface MapRequest extends SweepQuestion {
  readonly plan: Plan;
  /** What makes the map again where sweeping the model does not: its lines or tails are those of a comparison. */
  readonly command?: string;
}

/** A sweep's question with its plan. `set`: each "key=value", set anew in the model. */
export function sweepRequest(path: string, modelFile?: string, set?: readonly string[]): MapRequest {
  const question = sweepQuestion(path, modelFile, set);
  return { ...question, plan: planFor(question.model, question.sweep) };
}

export interface RunMapOptions extends RunnerChoice {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}

/**
 * The map names the command that makes it again, with only the options that decide the map, so that it is the same file
 * whatever folder, workers, cache or shards it was made with.
 */
export async function runMap(request: MapRequest, options: RunMapOptions): Promise<MapResult> {
  const { sweep, model, plan } = request;
  const files = { sweep: sweep.document.file, model: model.document.file };
  const command =
    request.command ?? shellLine(["gainscape", "sweep", files.sweep, "--model", files.model, ...setWords(model.value)]);
  const provenance = { productVersion: version(), command, ...files };
  // The plan's digest leaves out what only judges, which the map shows all the same.
  const { gates, gateJudge, skippedGates, baseline } = plan.sweep;
  const judged = {
    gates,
    ...(gateJudge === undefined ? {} : { gateJudge }),
    ...(skippedGates === undefined ? {} : { skippedGates }),
    baseline,
  };
  const cacheInputs = { plan: plan.digests.plan, ...judged, provenance };
  const cached = options.cache?.texts?.get(cacheInputs, ({ map = "" }) => mapOf("map.json", map)) ?? null;
  if (cached !== null) return { map: cached, figures: nothingSimulated(cached), unchanged: true };
  const made = await simulate(plan, { ...options, provenance, model: model.document });
  const text = canonicalJson(made.map);
  options.cache?.texts?.put(cacheInputs, { map: text });
  // As read back from the file, so that a cached map and a new one are the same, order of keys included.
  return { ...made, map: JSON.parse(text) as StabilityMap, unchanged: false };
}

export interface MapResult {
  readonly map: StabilityMap;
  readonly figures: RunFigures;
  /** The finished map was cached: nothing was simulated and nothing reduced. */
  readonly unchanged: boolean;
}

const nothingSimulated = ({ provenance: { trials, steps }, axes, variants }: StabilityMap): RunFigures => ({
  trials,
  steps,
  simulated: { trials: 0, steps: 0 },
  gridTrials:
    variants.reduce((sum, { axis }) => sum + pointCount(axes[axis].grid), 0) -
    [axes.roll, axes.pitch].reduce((sum, { leftOut }) => sum + (leftOut?.trials ?? 0), 0),
  gridSeconds: 0,
  restSeconds: 0,
});

export const mapFor = async (request: MapRequest, options: RunMapOptions): Promise<StabilityMap> =>
  (await runMap(request, options)).map;

/**
 * The map in a folder, if it is of this plan and was made by this version; else null. InputError if it is but was edited
 * since: an edited map must be neither taken for the program's own nor overwritten.
 */
export function reusableMap(plan: Plan, folder: string, options: SealOptions = {}): StabilityMap | null {
  const map = readable(folder);
  if (map === null || planOf(map).digest !== plan.digests.plan || map.product.version !== version()) return null;
  if (unknownMeasures(map).length > 0) return null;
  if (map.unsealed && !options.unsealed) readMap(folder); // says what is wrong with it
  // Gates may have changed since: they are no part of the plan.
  return { ...map, plan: { ...planOf(map), sweep: plan.sweep } };
}

function readable(folder: string): StabilityMap | null {
  try {
    return readMap(folder, { unsealed: true });
  } catch (error) {
    if (error instanceof InputError) return null; // absent, cut short or foreign: as good as missing
    throw error;
  }
}
