// Reading the files people write: the only way a model, sweep or script comes in.
import { accessSync, constants, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, dirname, extname } from "node:path";
import type { Document } from "../base/document.js";
import { nearest } from "../base/nearest.js";
import { fileProblem, InputError } from "../base/problem.js";
import { readYaml } from "./yaml.js";

const LARGEST = 256 * 1024; // bytes; a model is about 5 000

/** The YAML document in a file; InputError where there is none that can be read. */
export const readDocument = (path: string): Document => readYaml(path, readText(path, "a YAML file"));

/** The text of a file; InputError where there is none, naming what was `expected`. */
export function readText(path: string, expected: string): string {
  const bytes = readBytes(path, expected);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) throw refuse(path, "not a text file (UTF-8 expected)");
    throw error;
  }
}

function readBytes(path: string, expected: string): Uint8Array {
  return inOrder(path, () => {
    const size = sizeOf(path, expected);
    if (size > LARGEST) throw refuse(path, `${Math.ceil(size / 1024)} KiB, at most ${LARGEST / 1024} KiB can be read`);
    return readFileSync(path);
  });
}

/** Bytes of an ordinary file; InputError where it is none, or cannot be read. */
export const fileSize = (path: string, expected: string): number => inOrder(path, () => sizeOf(path, expected));

function sizeOf(path: string, expected: string): number {
  const stats = statSync(path);
  if (stats.isDirectory()) throw refuse(path, `is a folder, expected ${expected}`);
  if (!stats.isFile()) throw refuse(path, `is not a regular file, expected ${expected}`);
  accessSync(path, constants.R_OK);
  return stats.size;
}

/** The work's result; what the system says against it becomes an InputError. */
function inOrder<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof InputError ? error : refuse(path, reasonOf(error, path));
  }
}

const refuse = (path: string, message: string): InputError => new InputError([fileProblem(path, message)]);

function reasonOf(error: unknown, path: string): string {
  const code = errorCode(error);
  if (code === "ENOENT" || code === "ENOTDIR") return `no such file${neighbour(path)}`;
  if (code === "EACCES" || code === "EPERM") return "cannot be read: permission denied";
  return `cannot be read (${code})`;
}

/** The system's name of a failure, as "ENOENT". */
export const errorCode = (error: unknown): string =>
  error instanceof Error && "code" in error ? String(error.code) : "unknown reason";

/** A file of nearly that name in the same folder. */
function neighbour(path: string): string {
  try {
    const kind = extname(path) === ".csv" ? ".csv" : ".yaml";
    const names = readdirSync(dirname(path)).filter((entry) => extname(entry) === kind);
    const near = nearest(basename(path), names);
    return near === null ? "" : ` (did you mean "${near}"?)`;
  } catch {
    return ""; // no folder, no hint
  }
}
