// One run at a time into one place. A lock is a small file among the system's temporary ones, so that a run that ends
// early leaves no trace where it would have written; it names its process, and counts for nothing once that is gone.

import { linkSync, readFileSync, realpathSync, renameSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join, resolve } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { hex, sha256 } from "../base/digest.js";
import { fileProblem, InputError } from "../base/problem.js";
import { errorCode } from "./read.js";
import { removeIfThere } from "./write.js";

interface Holder {
  readonly pid: number;
  /** Distinguishes the process from a later one with the same number; null where the system does not say. */
  readonly birth: string | null;
}

/**
 * Locks a folder or file that need not exist; the function it returns unlocks it. InputError where a living process of this host
 * holds it. Where no lock can be made the run goes on without: each file is written atomically either way.
 */
export function lockPlace(path: string): () => void {
  const found = tryLock(path);
  if ("holder" in found) throw new InputError([fileProblem(path, lockedBy(found.holder))]);
  return found.release;
}

const PAUSE = 20; // ms between two looks
const MOST_LOOKS = 1500;

/** As `lockPlace`, for work of a moment: waits for its turn, and gives up only where the holder seems to hang. */
export async function lockPlaceInTurn(path: string): Promise<() => void> {
  for (let look = 0; look < MOST_LOOKS; look++) {
    const found = tryLock(path);
    if ("release" in found) return found.release;
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
  return lockPlace(path);
}

/** The lock, or who holds it. */
function tryLock(path: string): { readonly release: () => void } | { readonly holder: Holder } {
  const file = join(tmpdir(), `gainscape-${hex(sha256(realPath(resolve(path)))).slice(0, 16)}.lock`);
  const own = canonicalJson({ pid: process.pid, birth: birthOf(process.pid) } satisfies Holder);
  const mine = `${file}.${process.pid}`;
  try {
    writeFileSync(mine, own);
    // One round for each lock that may be found, left or taken meanwhile.
    for (let round = 0; round < 100; round++) {
      if (linked(mine, file)) return { release: () => released(file, own) };
      const found = textOf(file);
      if (found === null) continue;
      const holder = holderIn(found);
      if (holder !== null && isAlive(holder)) return { holder };
      removeDead(file, found, mine);
    }
  } catch {
    // no lock can be made here
  } finally {
    removeIfThere(mine);
  }
  return { release: () => {} };
}

const lockedBy = ({ pid }: Holder): string =>
  `another run (process ${pid}) is writing here; wait for its end, or name another folder`;

/** Linking is atomic and never replaces an existing file. */
function linked(mine: string, file: string): boolean {
  try {
    linkSync(mine, file);
    return true;
  } catch (error) {
    if (errorCode(error) === "EEXIST") return false;
    throw error;
  }
}

/** Removes a dead lock; one that another run has made in its place meanwhile is put back. */
function removeDead(file: string, dead: string, mine: string): void {
  const aside = `${mine}.dead`;
  renameSync(file, aside);
  if (textOf(aside) !== dead) linked(aside, file);
  removeIfThere(aside);
}

function released(file: string, own: string): void {
  if (textOf(file) === own) removeIfThere(file);
}

function holderIn(text: string): Holder | null {
  try {
    const { pid, birth } = JSON.parse(text);
    const sound = Number.isSafeInteger(pid) && pid > 0 && (birth === null || typeof birth === "string");
    return sound ? { pid, birth } : null;
  } catch {
    return null; // no lock of ours
  }
}

function isAlive({ pid, birth }: Holder): boolean {
  if (birth !== null) return birthOf(pid) === birth;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return errorCode(error) === "EPERM";
  }
}

/** The boot a living process was started in, and when in it; null where it is gone or the system has no such files. */
function birthOf(pid: number): string | null {
  const boot = textOf("/proc/sys/kernel/random/boot_id");
  const status = textOf(`/proc/${pid}/stat`);
  if (boot === null || status === null) return null;
  // The name before may hold anything; then come the state and, 19 further, the time.
  const fields = status.slice(status.lastIndexOf(")") + 2).split(" ");
  return /^[ZX]/.test(fields[0] ?? "") ? null : `${boot.trim()} ${fields[19]}`;
}

/** One name for a place, whatever links lead there. */
function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return dirname(path) === path ? path : join(realPath(dirname(path)), basename(path));
  }
}

function textOf(path: string): string | null {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return null;
  }
}
