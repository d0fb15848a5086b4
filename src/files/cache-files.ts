// A folder of small files named by the digest of what they hold the answer to, shared by any number of runs at once.
// Capped: the files used longest ago go first. It holds nothing that could not be made again.
import { readdirSync, readFileSync, rmSync, statSync, utimesSync } from "node:fs";
import { join } from "node:path";
import { isAbandoned, UNFINISHED, writeWhole } from "./write.js";

/** What a kept file holds: the results of one task, or finished texts of a run. */
export type CacheFileKind = "trials" | "texts";

/** Bytes; a task's results are about 10 000, a report about 3 million. */
export const LARGEST_CACHE_FILE = 64 * 2 ** 20;
const FOLDER = /^[0-9a-f]{2}$/;
const FILE = /^([0-9a-f]{62})\.(trials|texts)$/;
const LEFT_BEHIND = new RegExp(`^\\.[0-9a-f]{62}\\.(trials|texts)\\.[0-9a-f]+\\${UNFINISHED}$`);
/** Share of the cap that is kept when it was reached, so that not every file costs a look at all. */
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

/** The bytes of a file, or null where it is absent, was taken away by another run, or can be none of ours. */
export function bytesOf(path: string): Uint8Array | null {
  const about = attempt(() => statSync(path));
  return about?.isFile() && about.size <= LARGEST_CACHE_FILE ? (attempt(() => readFileSync(path)) ?? null) : null;
}

/** Throws NotWritten where the system refuses. */
export const writeCacheFile = (folder: string, key: string, bytes: Uint8Array, kind: CacheFileKind = "trials"): void =>
  writeWhole(cacheFilePath(folder, key, kind), bytes, false);

export function deleteCacheFile(folder: string, key: string, kind: CacheFileKind = "trials"): void {
  remove(cacheFilePath(folder, key, kind));
}

/** Every kept file, and none that others put there. */
export function listCacheFiles(folder: string): CacheFile[] {
  return below(folder).flatMap(({ path, folder: part, name }) => {
    const [, rest, kind] = FILE.exec(name) ?? [];
    const about = rest === undefined ? undefined : attempt(() => statSync(path));
    if (about === undefined) return [];
    return [{ path, key: `${part}${rest}`, kind: kind as CacheFileKind, bytes: about.size, used: about.mtimeMs }];
  });
}

/** Brings the folder under the cap and takes away what killed runs left unfinished. Answers how many files went. */
export function evictCacheFiles(folder: string, cap: number, now = Date.now()): number {
  for (const { path } of below(folder).filter(({ name }) => LEFT_BEHIND.test(name))) {
    const about = attempt(() => statSync(path));
    if (about !== undefined && isAbandoned(about.mtimeMs, now)) remove(path);
  }
  const files = listCacheFiles(folder);
  let bytes = files.reduce((sum, file) => sum + file.bytes, 0);
  if (bytes <= cap) return 0;
  files.sort((a, b) => a.used - b.used);
  let gone = 0;
  for (const file of files) {
    if (bytes <= SHARE_AFTER_EVICTION * cap) break;
    bytes -= file.bytes;
    if (remove(file.path)) gone++;
  }
  return gone;
}

/** Takes away every kept and every unfinished file, and nothing else. Answers how many were kept. */
export function clearCacheFiles(folder: string): number {
  const files = below(folder).filter(({ name }) => FILE.test(name) || LEFT_BEHIND.test(name));
  return files.filter(({ path, name }) => remove(path) && FILE.test(name)).length;
}

/** Whether it is gone; what the system will not let go of stays. */
const remove = (path: string): boolean =>
  attempt(() => {
    rmSync(path, { force: true });
    return true;
  }) ?? false;

/** What the system answers, or undefined where it refuses: another run, or another program, was here as well. */
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
