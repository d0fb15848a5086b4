// Reads binary files and the names in a folder; what cannot be read is one InputError.
import { readdirSync, readFileSync, statSync } from "node:fs";
import { fileProblem, InputError } from "../base/problem.js";
import { errorCode } from "./read.js";

/** The bytes of an ordinary file. InputError where there is none, or one of more than `largest` bytes. */
export function readBinary(path: string, largest: number): Uint8Array {
  return readOrProblem(path, () => {
    const stats = statSync(path);
    if (!stats.isFile()) throw refuse(path, "is not a regular file");
    if (stats.size > largest)
      throw refuse(path, `${Math.ceil(stats.size / 2 ** 20)} MiB, at most ${largest / 2 ** 20} MiB can be read`);
    return readFileSync(path);
  });
}

/** Names in a folder, sorted. InputError where there is none. */
export const namesIn = (folder: string): string[] => readOrProblem(folder, () => readdirSync(folder).sort());

function readOrProblem<T>(path: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    if (error instanceof InputError) throw error;
    const code = errorCode(error);
    if (code === "ENOENT") throw refuse(path, "not there");
    throw refuse(path, code === "ENOTDIR" ? "is a file, expected a folder" : `cannot be read (${code})`);
  }
}

const refuse = (path: string, message: string): InputError => new InputError([fileProblem(path, message)]);
