// A line added to a file that others add to as well: under a lock, in one write at its end, so that no writer loses another's line
// and a writer that is killed leaves at most an unfinished last line, which the next one closes.
import { closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readSync, writeSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { lockPlaceInTurn } from "./lock.js";
import { makeFolder, NotWritten } from "./write.js";

const NEWLINE = 10;

/**
 * Adds the line unless `unless` finds it there already, and says whether it did. Makes missing folders. Throws NotWritten where the system
 * refuses; the file is then as it was.
 */
export async function appendLine(path: string, line: string, unless: () => Promise<boolean>): Promise<boolean> {
  const release = await lockPlaceInTurn(path);
  try {
    if (await unless()) return false;
    append(path, line);
    return true;
  } finally {
    release();
  }
}

function append(path: string, line: string): void {
  try {
    makeFolder(resolve(dirname(path)));
    const file = openSync(path, "a+");
    try {
      const { size } = fstatSync(file);
      const bytes = Buffer.from(`${endsOpen(file, size) ? "\n" : ""}${line}\n`);
      if (writeSync(file, bytes) < bytes.length) {
        ftruncateSync(file, size);
        throw Object.assign(new Error("no room"), { code: "ENOSPC" });
      }
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw new NotWritten(path, error);
  }
}

/** Whether the last line has no end. */
function endsOpen(file: number, size: number): boolean {
  if (size === 0) return false;
  const last = Buffer.alloc(1);
  readSync(file, last, 0, 1, size - 1);
  return last[0] !== NEWLINE;
}
