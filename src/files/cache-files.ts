// The cache: a folder of small files named by the digest of their inputs, shared by any number of runs at once. Capped: the
// least recently used files are evicted. It holds nothing that could not be made again.
import { readdirSync, readFileSync, rmSync, statSync, utimesSync } from "node:fs";
import { join } from "node:path";
import { isAbandoned, UNFINISHED, writeAtomically } from "./write.js";

/** What a cached file holds: the results of one task, or finished texts of a run. */
export type CacheFileKind = "trials" | "texts";

/** Bytes; a task's results are about 10 000, a report about 3 million. */
export const LARGEST_CACHE_FILE = 64 * 2 ** 20;
const FOLDER = /^[0-9a-f]{2}$/;
const FILE = /^([0-9a-f]{62})\.(trials|texts)$/;
const LEFT_BEHIND = new RegExp(`^\\.[0-9a-f]{62}\\.(trials|texts)\\.[0-9a-f]+\\${UNFINISHED}$`);
/** Share of the cap that remains after eviction, so that not every new file needs a scan of all. */
const SHARE_AFTER_EVICTION = 0.8;

export interface CacheFile {
  readonly path: string;
  readonly key: string;
  readonly kind: CacheFileKind;
  readonly bytes: number;
  readonly used: number; // ms since 1970, by the file system
}

/** Where the file of a key (64 hexadecimal digits) stands. */
export const cacheFilePath = (folder: string, key: string, kind: CacheFileKind = "trials"): string =>
  join(folder, key.slice(0, 2), `${key.slice(2)}.${kind}`);

/** The bytes under a key, or null; marks them as used now. */
export function readCacheFile(folder: string, key: string, kind: CacheFileKind = "trials"): Uint8Array | null {
  const path = cacheFilePath(folder, key, kind);
  const bytes = bytesOf(path);
  if (bytes !== null) attempt(() => utimesSync(path, new Date(), new Date()));
  return bytes;
}

/** The bytes of a file, or null where it is absent, was removed by another run, or cannot be one of ours. */
export function bytesOf(path: string): Uint8Array | null {
  const stats = attempt(() => statSync(path));
  return stats?.isFile() && stats.size <= LARGEST_CACHE_FILE ? (attempt(() => readFileSync(path)) ?? null) : null;
}

/** Throws NotWritten where the system refuses. */
export const writeCacheFile = (folder: string, key: string, bytes: Uint8Array, kind: CacheFileKind = "trials"): void =>
  writeAtomically(cacheFilePath(folder, key, kind), bytes, false);

export function deleteCacheFile(folder: string, key: string, kind: CacheFileKind = "trials"): void {
  remove(cacheFilePath(folder, key, kind));
}

/** Every cached file, and no other file in the folder. */
export function listCacheFiles(folder: string): CacheFile[] {
  return below(folder).flatMap(({ path, folder: part, name }) => {
    const [, rest, kind] = FILE.exec(name) ?? [];
    const stats = rest === undefined ? undefined : attempt(() => statSync(path));
    if (stats === undefined) return [];
    return [{ path, key: `${part}${rest}`, kind: kind as CacheFileKind, bytes: stats.size, used: stats.mtimeMs }];
  });
}

/** Evicts files down to the cap and removes unfinished ones of killed runs. Returns how many were evicted. */
export function evictCacheFiles(folder: string, cap: number, now = Date.now()): number {
  for (const { path } of below(folder).filter(({ name }) => LEFT_BEHIND.test(name))) {
    const stats = attempt(() => statSync(path));
    if (stats !== undefined && isAbandoned(stats.mtimeMs, now)) remove(path);
  }
  const files = listCacheFiles(folder);
  let bytes = files.reduce((sum, file) => sum + file.bytes, 0);
  if (bytes <= cap) return 0;
  files.sort((a, b) => a.used - b.used);
  let evicted = 0;
  for (const file of files) {
    if (bytes <= SHARE_AFTER_EVICTION * cap) break;
    bytes -= file.bytes;
    if (remove(file.path)) evicted++;
  }
  return evicted;
}

/** Deletes every cached and every unfinished file, and nothing else. Returns how many cached files there were. */
export function clearCacheFiles(folder: string): number {
  const files = below(folder).filter(({ name }) => FILE.test(name) || LEFT_BEHIND.test(name));
  return files.filter(({ path, name }) => remove(path) && FILE.test(name)).length;
}

/** Whether the file is gone; one that the system refuses to delete stays. */
const remove = (path: string): boolean =>
  attempt(() => {
    rmSync(path, { force: true });
    return true;
  }) ?? false;

/** The result of a system call, or undefined where it fails, as when another run removed the file. */
function attempt<T>(act: () => T): T | undefined {
  try {
    return act();
  } catch {
    return undefined;
  }
}

interface Found {
  readonly path: string;
  readonly folder: string; // its last part
  readonly name: string;
}

function below(folder: string): Found[] {
  return namesIn(folder)
    .filter((name) => FOLDER.test(name))
    .flatMap((part) =>
      namesIn(join(folder, part)).map((name) => ({ path: join(folder, part, name), folder: part, name })),
    );
}

const namesIn = (folder: string): string[] => attempt(() => readdirSync(folder)) ?? [];
