// Writes results atomically: a file is either complete or absent, whatever moment the run is killed at.

import { randomBytes } from "node:crypto";
import {
  closeSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { isFolder } from "./folder.js";
import { unlessInterrupted } from "./interrupted.js";
import { errorCode } from "./read.js";

/** Suffix of a file that is still being written; one that stays was left by a killed process. */
export const UNFINISHED = ".part";

/** A result that could not be written though its folder could be probed: a full disk, a folder pulled away. */
export class NotWritten extends Error {
  override readonly name = "NotWritten";
  constructor(path: string, cause: unknown) {
    super(`${path} could not be written (${errorCode(cause)})`, { cause });
  }
}

/**
 * Writes a file atomically: under a temporary name in the same folder, flushed, then renamed. Makes missing folders. Throws
 * NotWritten where the system refuses. `durable` false leaves out the flush: a killed process loses nothing by it, a
 * machine that loses power may, so the reader of the file must be able to detect it.
 */
export const writeAtomically = (path: string, content: string | Uint8Array, durable = true): void =>
  written(path, content, durable, renameSync);

/** As writeAtomically, but a file that is there already stays: false where there is one. */
export function writeNew(path: string, content: string): boolean {
  let free = true;
  written(path, content, true, (temporary) => {
    free = linked(temporary, path);
    removeIfThere(temporary);
  });
  return free;
}

/** Puts a name to a file unless the name is taken; some file systems know no second names. */
function linked(temporary: string, path: string): boolean {
  try {
    linkSync(temporary, path);
    return true;
  } catch (error) {
    if (errorCode(error) === "EEXIST") return false;
    if (lstatSync(path, { throwIfNoEntry: false }) !== undefined) return false;
    renameSync(temporary, path);
    return true;
  }
}

function written(
  path: string,
  content: string | Uint8Array,
  durable: boolean,
  put: (temporary: string, path: string) => void,
): void {
  const folder = dirname(path);
  const temporary = join(folder, `.${basename(path)}.${randomBytes(6).toString("hex")}${UNFINISHED}`);
  try {
    makeFolder(resolve(folder));
    if (durable) removeAbandoned(path);
    const file = openSync(temporary, "wx");
    try {
      writeFileSync(file, content);
      if (durable) fsyncSync(file);
    } finally {
      closeSync(file);
    }
    put(temporary, path);
  } catch (error) {
    removeIfThere(temporary);
    throw new NotWritten(path, error);
  }
}

/** One file after the other, each atomically. Throws NotWritten, and Interrupted before the first that came too late. */
export async function writeInTurn(
  files: readonly (readonly [path: string, content: string])[],
  signal?: AbortSignal,
): Promise<void> {
  for (const [path, content] of files) {
    await unlessInterrupted(signal, path);
    writeAtomically(path, content);
  }
}

/** Whether an unfinished file last touched then belongs to no run that is still writing; also where a clock was set. */
export const isAbandoned = (touched: number, now = Date.now()): boolean => Math.abs(now - touched) > 3_600_000; // ms

/** Removes what runs killed while writing this file left in its folder. */
function removeAbandoned(path: string): void {
  const [folder, start] = [dirname(path), `.${basename(path)}.`];
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(start) || !name.endsWith(UNFINISHED)) continue;
    const left = join(folder, name);
    if (isAbandoned(statSync(left, { throwIfNoEntry: false })?.mtimeMs ?? Date.now())) removeIfThere(left);
  }
}

/** Leaves a folder that holds anything, or cannot be removed, as it is. */
export function removeFolderIfEmpty(path: string): void {
  try {
    rmdirSync(path);
  } catch {
    // not empty, or not ours to remove: nothing depends on it
  }
}

/** A failure is ignored: the next write to the same place reports it. */
export function removeIfThere(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {}
}

/** One folder after the other: on some systems the recursive call of Node never ends. */
export function makeFolder(folder: string): void {
  if (isFolder(folder)) return;
  if (dirname(folder) !== folder) makeFolder(dirname(folder));
  try {
    mkdirSync(folder);
  } catch (error) {
    if (errorCode(error) !== "EEXIST") throw error;
  }
}
