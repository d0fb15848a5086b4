// gainscape cache: what is cached of earlier runs; --clear deletes it.
import { printable } from "../base/problem.js";
import { CACHE_CAP } from "../flow/cache.js";
import { cacheContents, clearCache } from "../flow/cache-contents.js";
import { cacheFolder } from "./cache-folder.js";
import { EXIT } from "./exit.js";

export interface CacheOptions {
  readonly cache?: string;
  readonly clear?: boolean;
}

export function cacheCommand({ cache, clear }: CacheOptions): number {
  const folder = cache ?? cacheFolder();
  process.stdout.write(`${printable(folder)}: ${clear ? clearedSummary(folder) : cacheSummary(folder)}\n`);
  return EXIT.done;
}

function cacheSummary(folder: string): string {
  const { files, trials, finished, bytes, broken } = cacheContents(folder);
  const damage = broken === 0 ? "" : `; ${broken} files are broken and will be dropped and made again`;
  const contents = `${trials} trials, ${finished} finished maps and reports, ${files} files`;
  return `${contents}, ${megabytes(bytes)} MiB (default limit ${megabytes(CACHE_CAP)} MiB)${damage}.`;
}

const clearedSummary = (folder: string): string => `${clearCache(folder)} files cleared.`;

const megabytes = (bytes: number): string => (bytes / 2 ** 20).toFixed(bytes < 2 ** 20 ? 2 : 0);
