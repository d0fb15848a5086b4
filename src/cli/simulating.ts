// What every command that simulates shares: workers, progress and the cache.
import { layered, type TrialCache } from "../flow/cache.js";
import type { RunMapOptions } from "../flow/run-map.js";
import { type CacheChoice, chosenCache } from "./cache-folder.js";
import { grantedWorkers } from "./forecast.js";
import { noProgressView, type ProgressView, progressView } from "./progress.js";
import { progressLines } from "./progress-lines.js";

export interface SimulatingOptions extends CacheChoice {
  /** Aborts when the command is to end. */
  readonly signal: AbortSignal;
  readonly workers?: number;
  readonly quiet?: boolean;
  readonly json?: boolean;
  /** What is said as the run goes on is a line of JSON each. */
  readonly jsonLines?: boolean;
  /** Trials from the shards that are being merged. */
  readonly shardTrials?: TrialCache;
}

/** Runs `work` with the workers, progress and cache of the options; restores terminal and cache however it ends. */
export async function withProgress<T>(
  options: SimulatingOptions,
  work: (how: RunMapOptions) => Promise<T>,
): Promise<T> {
  const { signal } = options;
  const workers = grantedWorkers(options.workers);
  const view = viewFor(options);
  const cache = layered(options.shardTrials, chosenCache(options, view.note));
  try {
    return await work({ workers, signal, onProgress: view.show, cache });
  } finally {
    view.end();
    cache?.close();
  }
}

function viewFor({ quiet, json, jsonLines }: SimulatingOptions): ProgressView {
  if (quiet || json) return noProgressView(process.stderr);
  return jsonLines ? progressLines(process.stdout, process.stderr) : progressView(process.stderr);
}
