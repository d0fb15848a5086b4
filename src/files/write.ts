// Writing results: a file is either whole or absent, whatever moment the run is killed at.
import { accessSync, closeSync, constants, fsyncSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { randomBytes } from "node:crypto";
import { basename, dirname, join, resolve } from "node:path";
import { fileProblem, type Problem } from "../base/problem.js";
import { errorCode } from "./read.js";

/** Writes a file whole: under a temporary name beside it, flushed, then renamed. Makes missing folders. */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const folder = dirname(path);
  mkdirSync(folder, { recursive: true });
  const temporary = join(folder, `.${basename(path)}.${randomBytes(6).toString("hex")}.part`);
  try {
    const file = openSync(temporary, "wx");
    try {
      writeFileSync(file, content);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(temporary, path);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
}

/**
 * Why nothing could be written into a folder (which need not exist yet), or null. Makes nothing: asked
 * before the long work starts, when bad input must still leave no trace.
 */
export function probeFolder(path: string): Problem | null {
  const full = resolve(path);
  try {
    if (!statSync(full).isDirectory()) return fileProblem(path, "cannot be written into: it is a file, expected a folder");
    accessSync(full, constants.W_OK | constants.X_OK);
    return null;
  } catch (error) {
    const code = errorCode(error);
    if (code === "ENOENT" && dirname(full) !== full) return probeFolder(dirname(full));
    if (code === "ENOTDIR" && dirname(full) !== full) return probeFolder(dirname(full));
    return fileProblem(path, code === "EACCES" ? "cannot be written into: permission denied" : `cannot be written into (${code})`);
  }
}
