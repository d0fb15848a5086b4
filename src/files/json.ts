// JSON files of our own making, read back. Nothing they hold can hang or crash this: size and nesting are capped.
import { readFileSync, statSync } from "node:fs";
import type { Document } from "../base/document.js";
import { fileProblem, InputError } from "../base/problem.js";
import { placesOf } from "./lines.js";
import { errorCode } from "./read.js";

const LARGEST = 256 * 1024 * 1024; // bytes; the largest grid with every shipped script takes about a quarter of it
const DEEPEST = 64; // levels

/** The document in a JSON file; its values are told by their path, not by a line. InputError where there is none. */
export function readJson(path: string): Document {
  const text = readText(path);
  if (tooDeep(text)) throw refuse(path, `nested more than ${DEEPEST} levels deep`);
  const data = parsed(path, text);
  return Object.freeze({ file: path, data, place: () => ({ line: 0, column: 0 }) });
}

function readText(path: string): string {
  try {
    const about = statSync(path);
    if (!about.isFile()) throw refuse(path, "is no ordinary file, expected a JSON file");
    if (about.size > LARGEST)
      throw refuse(path, `${Math.ceil(about.size / 2 ** 20)} MiB, at most ${LARGEST / 2 ** 20} MiB can be read`);
    return new TextDecoder("utf-8", { fatal: true }).decode(readFileSync(path));
  } catch (error) {
    if (error instanceof InputError) throw error;
    if (error instanceof TypeError) throw refuse(path, "not a text file (UTF-8 expected)");
    const code = errorCode(error);
    throw refuse(path, code === "ENOENT" || code === "ENOTDIR" ? "no such file" : `cannot be read (${code})`);
  }
}

function parsed(path: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const [, offset] = /position (\d+)/.exec(error instanceof Error ? error.message : "") ?? [];
    const place = offset === undefined ? { line: 0, column: 0 } : placesOf(text)(Number(offset));
    throw new InputError([{ file: path, ...place, path: "", message: "not JSON that can be read; was it cut short?" }]);
  }
}

/** Brackets outside of texts, counted before anything walks the value. */
function tooDeep(text: string): boolean {
  let open = 0;
  let inText = false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (inText) {
      if (code === BACKSLASH) at++;
      else if (code === QUOTE) inText = false;
    } else if (code === QUOTE) inText = true;
    else if (code === OPEN_LIST || code === OPEN_GROUP) {
      if (++open > DEEPEST) return true;
    } else if (code === CLOSE_LIST || code === CLOSE_GROUP) open--;
  }
  return false;
}

const [QUOTE, BACKSLASH, OPEN_LIST, CLOSE_LIST, OPEN_GROUP, CLOSE_GROUP] = [34, 92, 91, 93, 123, 125];

const refuse = (path: string, message: string): InputError => new InputError([fileProblem(path, message)]);
