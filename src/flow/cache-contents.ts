// What the cache holds, for the cache command.
import { bytesOf, type CacheFile, clearCacheFiles, listCacheFiles } from "../files/cache-files.js";
import { readTask } from "../run/encoded-task.js";
import { readTexts } from "./cached-texts.js";

export interface CacheContents {
  readonly files: number;
  readonly trials: number;
  /** Files of finished maps and pages among them. */
  readonly finished: number;
  readonly bytes: number;
  /** Files that are incomplete or hold another result than their name says. */
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
    else if (file.kind === "texts" && isIntact(file)) found.finished++;
    else found.broken++;
  }
  return { files: all.length, bytes: all.reduce((sum, { bytes }) => sum + bytes, 0), ...found };
}

function trialsIn({ path, key, bytes }: CacheFile): number | null {
  const decoded = readTask(bytesOf(path) ?? NOTHING);
  return typeof decoded !== "string" && decoded.key === key && decoded.length === bytes
    ? decoded.result.outcome.length
    : null;
}

function isIntact({ path, key }: CacheFile): boolean {
  const decoded = readTexts(bytesOf(path) ?? NOTHING);
  return typeof decoded !== "string" && decoded.key === key;
}

/** Deletes every cached file and nothing else; returns how many. */
export const clearCache = (folder: string): number => clearCacheFiles(folder);
