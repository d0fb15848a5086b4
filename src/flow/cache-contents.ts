// A look into the cache from outside of a run.
import { bytesOf, clearKept, keptFiles } from "../files/kept-files.js";
import { readTask } from "../run/kept-task.js";

export interface CacheContents {
  readonly files: number;
  readonly trials: number;
  readonly bytes: number;
  /** Files that hold no whole result, or another one than their name says. */
  readonly broken: number;
}

const NOTHING = new Uint8Array(0);

/** Reads and checks every file. */
export function cacheContents(folder: string): CacheContents {
  const all = keptFiles(folder);
  let trials = 0;
  let broken = 0;
  for (const { path, key, bytes } of all) {
    const kept = readTask(bytesOf(path) ?? NOTHING);
    if (typeof kept !== "string" && kept.key === key && kept.length === bytes) trials += kept.result.outcome.length;
    else broken++;
  }
  return { files: all.length, trials, bytes: all.reduce((sum, { bytes }) => sum + bytes, 0), broken };
}

/** Takes away every kept file and nothing else. Answers how many. */
export const clearCache = (folder: string): number => clearKept(folder);
