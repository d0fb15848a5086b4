// The cache of finished trials: a folder of sealed files, used as the store of a run. Whatever is wrong with it costs
// time and is told, and never ends a run.
import { plain } from "../base/problem.js";
import { dropKept, keptFile, readKept, trimKept, writeKept } from "../files/kept-files.js";
import { moduleDigest } from "../files/module-digest.js";
import type { Plan } from "../plan/plan.js";
import type { TrialStore } from "../run/cached.js";
import { decodeTask, encodeTask } from "../run/kept-task.js";
import { taskKeys } from "../run/trial-key.js";

export interface CacheOptions {
  readonly folder: string;
  /** Bytes after which the files used longest ago are taken away. */
  readonly cap?: number;
  /** Told what was found wrong, in one line each. */
  readonly onNote?: (line: string) => void;
}

export interface TrialCache {
  /** The store of one plan's trials. */
  of(plan: Plan): TrialStore;
  /** Holds the folder to its cap; to be called when the runs are over. */
  close(): void;
}

const MEBIBYTE = 2 ** 20;
export const CACHE_CAP = 1024 * MEBIBYTE;
/** Lines told of single files before the rest is only counted. */
const MOST_NOTES = 5;

/** The digest of the code that flies and reads trials: part of every key. */
export const trialCode = (): string => moduleDigest(new URL("../run/task.js", import.meta.url));

export function openCache({ folder, cap = CACHE_CAP, onNote = () => {} }: CacheOptions): TrialCache {
  const code = trialCode();
  const note = noted(onNote);
  let writable = true;
  let written = 0;
  const trim = () => {
    trimKept(folder, cap);
    written = 0;
  };
  const put = (key: string, bytes: Uint8Array) => {
    try {
      writeKept(folder, key, bytes);
    } catch (error) {
      writable = false;
      note.always(`cache: ${(error as Error).message}; this run goes on without keeping its trials`);
    }
    written += bytes.length;
    // A run that alone outgrows the cap must not fill the disk before it ends.
    if (written > cap / 8) trim();
  };
  return {
    of(plan) {
      const keyOf = taskKeys(plan, code);
      return {
        get lasting() {
          return writable;
        },
        recall(task) {
          const key = keyOf(task);
          const bytes = readKept(folder, key);
          if (bytes === null) return null;
          const result = decodeTask(key, task.p.length, bytes);
          if (typeof result !== "string") return result;
          dropKept(folder, key);
          note.single(
            `cache: ${keptFile(folder, key)} ${result}; dropped, its ${task.p.length} trials are flown again`,
          );
          return null;
        },
        keep(task, result) {
          if (!writable) return;
          const key = keyOf(task);
          put(key, encodeTask(key, result));
        },
      };
    },
    close() {
      if (written > 0) trim();
      note.end();
    },
  };
}

/** Looks into the front one first, keeps in the one behind. */
export function layered(front: TrialCache | undefined, behind: TrialCache | undefined): TrialCache | undefined {
  if (front === undefined || behind === undefined) return front ?? behind;
  return {
    of(plan) {
      const [first, second] = [front.of(plan), behind.of(plan)];
      return {
        recall: (task) => first.recall(task) ?? second.recall(task),
        keep: (task, result) => second.keep(task, result),
        get lasting() {
          return second.lasting;
        },
      };
    },
    close: () => behind.close(),
  };
}

function noted(onNote: (line: string) => void) {
  let singles = 0;
  return {
    always: (line: string) => onNote(plain(line)),
    single(line: string) {
      if (singles++ < MOST_NOTES) onNote(plain(line));
    },
    end() {
      if (singles > MOST_NOTES) onNote(`cache: ${singles - MOST_NOTES} more files were dropped and are made again`);
      singles = 0;
    },
  };
}
