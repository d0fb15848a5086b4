// The cache of finished trials, maps and pages: a folder of sealed files, used as the store of a run. A fault in it
// costs time and is reported, and never ends a run.
import { digestOf } from "../base/digest.js";
import { printable } from "../base/problem.js";
import {
  type CacheFileKind,
  cacheFilePath,
  deleteCacheFile,
  evictCacheFiles,
  LARGEST_CACHE_FILE,
  readCacheFile,
  writeCacheFile,
} from "../files/cache-files.js";
import { moduleDigest } from "../files/module-digest.js";
import { readPart } from "../files/part.js";
import type { Plan, TrialPlan } from "../plan/plan.js";
import type { TrialStore } from "../run/cached.js";
import { decodeTask, encodeTask } from "../run/encoded-task.js";
import { taskKeys } from "../run/trial-key.js";
import { decodeTexts, encodeTexts, type Texts } from "./cached-texts.js";
import type { CountedDraws } from "./draws.js";
import { pageScript } from "./page-script.js";

export interface CacheOptions {
  readonly folder: string;
  /** Bytes above which the least recently used files are evicted. */
  readonly cap?: number;
  /** Called with each fault found, one line each. */
  readonly onNote?: (line: string) => void;
}

export interface TrialCache {
  /** The store of one plan's trials. */
  of(plan: TrialPlan): TrialStore;
  /** What the draws of a plan came to where they were shared out; null where they were not. */
  draws?(plan: Plan): CountedDraws | null;
  /** Finished maps and pages; absent where none are cached. */
  readonly texts?: TextStore;
  /** Trims the folder to its cap; to be called when the runs are over. */
  close(): void;
}

/** Finished texts by everything they depend on; the digest of the code is added here. Neither call throws. */
export interface TextStore {
  /** `read` returns null where the texts are not of the wanted kind. */
  get<T>(inputs: unknown, read: (texts: Texts) => T | null): T | null;
  put(inputs: unknown, texts: Texts): void;
}

const MEBIBYTE = 2 ** 20;
export const CACHE_CAP = 1024 * MEBIBYTE;
/** Lines printed about single files before the rest is only counted. */
const MOST_NOTES = 5;

/** The digest of the code that simulates and measures trials: part of every key. */
export const trialCode = (): string => moduleDigest(new URL("../run/task.js", import.meta.url));

/** The digest of everything maps and pages are made by: every module, the page's script, the packages. */
const finishingCode = (): string =>
  digestOf([
    moduleDigest(new URL("./simulate.js", import.meta.url), new URL("./write.js", import.meta.url)),
    pageScript(),
    readPart(new URL("../../package.json", import.meta.url)),
  ]);

export function openCache({ folder, cap = CACHE_CAP, onNote = () => {} }: CacheOptions): TrialCache {
  const note = limitedNotes(onNote);
  let writable = true;
  let written = 0;
  const trim = () => {
    evictCacheFiles(folder, cap);
    written = 0;
  };
  const put = (key: string, bytes: Uint8Array, kind: CacheFileKind) => {
    if (!writable) return;
    try {
      writeCacheFile(folder, key, bytes, kind);
    } catch (error) {
      writable = false;
      note.always(`cache: ${(error as Error).message}; this run goes on without caching its trials`);
    }
    written += bytes.length;
    // A run that alone outgrows the cap must not fill the disk before it ends.
    if (written > cap / 8) trim();
  };
  let code: string | undefined;
  const textKey = (inputs: unknown): string => {
    code ??= finishingCode();
    return digestOf({ code, inputs });
  };
  /** The entry of the key, as `decode` reads it; an entry that it refuses with a reason is reported and dropped. */
  const readOrDrop = <T extends object>(
    key: string,
    kind: CacheFileKind,
    decode: (bytes: Uint8Array) => T | string,
    lost: string,
  ): T | null => {
    const bytes = readCacheFile(folder, key, kind);
    if (bytes === null) return null;
    const result = decode(bytes);
    if (typeof result !== "string") return result;
    deleteCacheFile(folder, key, kind);
    note.single(`cache: ${cacheFilePath(folder, key, kind)} ${result}; dropped, ${lost}`);
    return null;
  };
  return {
    of(plan) {
      const keyOf = taskKeys(plan, trialCode());
      return {
        get persistent() {
          return writable;
        },
        get(task) {
          const key = keyOf(task);
          const trials = task.p.length;
          return readOrDrop(
            key,
            "trials",
            (bytes) => decodeTask(key, trials, bytes),
            `its ${trials} trials are simulated again`,
          );
        },
        put(task, result) {
          const key = keyOf(task);
          put(key, encodeTask(key, result), "trials");
        },
      };
    },
    texts: {
      get(inputs, read) {
        const key = textKey(inputs);
        const decode = (bytes: Uint8Array) => {
          const texts = decodeTexts(key, bytes);
          if (typeof texts === "string") return texts;
          const value = read(texts);
          return value === null ? "holds what no run writes" : { value };
        };
        return readOrDrop(key, "texts", decode, "its content is made again")?.value ?? null;
      },
      put(inputs, texts) {
        const key = textKey(inputs);
        const bytes = encodeTexts(key, texts);
        // Under a small cap, trials are worth more than what can be made from them.
        if (bytes.length <= Math.min(LARGEST_CACHE_FILE, cap / 4)) put(key, bytes, "texts");
      },
    },
    close() {
      if (written > 0) trim();
      note.end();
    },
  };
}

/** Reads from the front cache first, writes to the one behind. */
export function layered(front: TrialCache | undefined, behind: TrialCache | undefined): TrialCache | undefined {
  if (front === undefined || behind === undefined) return front ?? behind;
  return {
    of(plan) {
      const [first, second] = [front.of(plan), behind.of(plan)];
      return {
        get: (task) => first.get(task) ?? second.get(task),
        put: (task, result) => second.put(task, result),
        get persistent() {
          return second.persistent;
        },
      };
    },
    draws: (plan) => front.draws?.(plan) ?? null,
    ...(behind.texts === undefined ? {} : { texts: behind.texts }),
    close: () => behind.close(),
  };
}

function limitedNotes(onNote: (line: string) => void) {
  let singles = 0;
  return {
    always: (line: string) => onNote(printable(line)),
    single(line: string) {
      if (singles++ < MOST_NOTES) onNote(printable(line));
    },
    end() {
      if (singles > MOST_NOTES) onNote(`cache: ${singles - MOST_NOTES} more files were dropped and are made again`);
      singles = 0;
    },
  };
}
