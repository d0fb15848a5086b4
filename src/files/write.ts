// Writing results: a file is either whole or absent, whatever moment the run is killed at.

import { randomBytes } from "node:crypto";
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { isFolder } from "./folder.js";
import { unlessInterrupted } from "./interrupted.js";
import { errorCode } from "./read.js";

/** How the name of a file ends that is not whole yet; one that stays was left by a process that was killed. */
export const UNFINISHED = ".part";

/** A result that could not be written though its folder could be probed: a full disk, a folder pulled away. */
export class NotWritten extends Error {
  override readonly name = "NotWritten";
  constructor(path: string, cause: unknown) {
    super(`${path} could not be written (${errorCode(cause)})`, { cause });
  }
}

/**
 * Writes a file whole: under a temporary name beside it, flushed, then renamed. Makes missing folders. Throws
 * NotWritten where the system refuses. `lasting` false leaves out the flush: a killed process loses nothing by it, a
 * machine without power may, and whoever reads the file must be able to tell.
 */
export function writeWhole(path: string, content: string | Uint8Array, durable = true): void {
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
    renameSync(temporary, path);
  } catch (error) {
    removeIfThere(temporary);
    throw new NotWritten(path, error);
  }
}

/** One file after the other, each whole. Throws NotWritten, and Interrupted before the first that came too late. */
export async function writeInTurn(
  files: readonly (readonly [path: string, content: string])[],
  signal?: AbortSignal,
): Promise<void> {
  for (const [path, content] of files) {
    await unlessInterrupted(signal, path);
    writeWhole(path, content);
  }
}

/** Whether an unfinished file last touched then belongs to no run that is still writing; also where a clock was set. */
export const isAbandoned = (touched: number, now = Date.now()): boolean => Math.abs(now - touched) > 3_600_000; // ms

/** Takes away what runs killed in the middle of this file left beside it. */
function removeAbandoned(path: string): void {
  const [folder, start] = [dirname(path), `.${basename(path)}.`];
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(start) || !name.endsWith(UNFINISHED)) continue;
    const left = join(folder, name);
    if (isAbandoned(statSync(left, { throwIfNoEntry: false })?.mtimeMs ?? Date.now())) removeIfThere(left);
  }
}

/** What is refused here is refused to whoever writes next, who says why. */
export function removeIfThere(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {}
}

/** One folder after the other: where the system lies about a missing parent the recursive call never ends. */
function makeFolder(folder: string): void {
  if (isFolder(folder)) return;
  if (dirname(folder) !== folder) makeFolder(dirname(folder));
  try {
    mkdirSync(folder);
  } catch (error) {
    if (errorCode(error) !== "EEXIST") throw error;
  }
}
