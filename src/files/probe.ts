// Whether files could be written into a folder, checked before the long work starts; nothing is created.
import { accessSync, constants, lstatSync, statfsSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { fileProblem, type Problem } from "../base/problem.js";
import { errorCode } from "./read.js";

const LONGEST_NAME = 255; // bytes, on every system in use

export interface Needs {
  /** Names of the files that will be written. */
  readonly names?: readonly string[];
  /** Their size together. */
  readonly bytes?: number;
}

/** Why nothing could be written into a folder (which need not exist yet), or null. */
export function probeFolder(path: string, { names = [], bytes = 0 }: Needs = {}): Problem | null {
  const reason = refusalOf(resolve(path)) ?? occupied(path, names) ?? tooFull(resolve(path), bytes);
  return reason === null ? null : fileProblem(path, `cannot be written into: ${reason}`);
}

/** Asks the folder, or the nearest one above it that is there. */
function refusalOf(folder: string): string | null {
  try {
    if (!statSync(folder).isDirectory()) return `${folder} is a file, expected a folder`;
    accessSync(folder, constants.W_OK | constants.X_OK);
    return null;
  } catch (error) {
    const code = errorCode(error);
    if (code === "ENOENT" && isLink(folder)) return `${folder} is a link to nothing, expected a folder`;
    if (Buffer.byteLength(basename(folder)) > LONGEST_NAME) return "ENAMETOOLONG";
    const above = dirname(folder);
    if ((code === "ENOENT" || code === "ENOTDIR") && above !== folder) return refusalOf(above);
    return code === "EACCES" ? "permission denied" : code;
  }
}

/** A folder in the place of a file stays there: nothing can be renamed over it. */
function occupied(folder: string, names: readonly string[]): string | null {
  const name = names.find((one) => statOf(join(folder, one))?.isDirectory());
  return name === undefined ? null : `${join(folder, name)} is a folder, expected a file or nothing`;
}

function tooFull(folder: string, bytes: number): string | null {
  const free = freeBytes(nearest(folder));
  if (free === null || free >= bytes) return null;
  return `${mebibytes(free)} MiB are free, the files take about ${mebibytes(bytes)} MiB`;
}

/** What the file system of a folder has to give; null where it does not say. */
function freeBytes(folder: string): number | null {
  try {
    const { bavail, bsize, blocks } = statfsSync(folder);
    return blocks === 0 ? null : bavail * bsize; // some that have no blocks at all take files
  } catch {
    return null;
  }
}

const nearest = (folder: string): string =>
  statOf(folder) !== null || dirname(folder) === folder ? folder : nearest(dirname(folder));

const mebibytes = (bytes: number): string => (bytes / 2 ** 20).toFixed(1);

/** Whether anything has the name, a link to nothing included. */
export function isTaken(path: string): boolean {
  try {
    return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
  } catch {
    return false; // probing its folder gives the reason
  }
}

const isLink = (path: string): boolean => lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;

function statOf(path: string) {
  try {
    return statSync(path, { throwIfNoEntry: false }) ?? null;
  } catch {
    return null;
  }
}
