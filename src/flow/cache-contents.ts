// A look into the cache from outside of a run.
import { bytesOf, type CacheFile, clearCacheFiles, listCacheFiles } from "../files/cache-files.js";
import { readTask } from "../run/encoded-task.js";
import { readTexts } from "./cached-texts.js";

export interface CacheContents {
  readonly files: number;
  readonly trials: number;
  /** Files of finished maps and pages among them. */
  readonly finished: number;
  readonly bytes: number;
  /** Files that hold no whole result, or another one than their name says. */
  readonly broken: number;
}

const NOTHING = new Uint8Array(0);

/** Reads and checks every file. */
export function cacheContents(folder: string): CacheContents {
  const all = listCacheFiles(folder);
  const found = { trials: 0, finished: 0, broken: 0 };
  for (const file of all) {
    const trials = file.kind === "trials" ? trialsIn(file) : null;
    if (trials !== null) found.trials += trials;
    else if (file.kind === "texts" && isWhole(file)) found.finished++;
    else found.broken++;
  }
  return { files: all.length, bytes: all.reduce((sum, { bytes }) => sum + bytes, 0), ...found };
}

function trialsIn({ path, key, bytes }: CacheFile): number | null {
  const kept = readTask(bytesOf(path) ?? NOTHING);
  return typeof kept !== "string" && kept.key === key && kept.length === bytes ? kept.result.outcome.length : null;
}

function isWhole({ path, key }: CacheFile): boolean {
  const kept = readTexts(bytesOf(path) ?? NOTHING);
  return typeof kept !== "string" && kept.key === key;
}

/** Takes away every kept file and nothing else. Answers how many. */
export const clearCache = (folder: string): number => clearCacheFiles(folder);
