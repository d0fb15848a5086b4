// JSON files of our own making, read back. Nothing they hold can hang or crash this: size and nesting are capped.
import { readFileSync, statSync } from "node:fs";
import type { Document } from "../base/document.js";
import { fileProblem, InputError } from "../base/problem.js";
import { placesOf } from "./lines.js";
import { errorCode } from "./read.js";

const LARGEST = 96 * 2 ** 20; // bytes; the largest grid with every shipped script takes about 64 MiB
const DEEPEST = 64; // levels
// More than the largest map of any sweep is refused before it is parsed: a list, group, key or text takes up to a hundred
// bytes of memory, and a map must be read in less than 512 MiB.
const MOST_HOLDERS = 1_500_000; // lists and groups
const MOST_KEYS = 2_500_000;
const MOST_DIFFERENT_KEYS = 16_384;
const MOST_VALUES = 6_000_000;
const MOST_TEXTS = 1_000_000; // besides keys

/** The document in a JSON file; messages name values by path, not by line. InputError where it cannot be read. */
export function readJson(path: string): Document {
  const text = readText(path);
  const excess = excessOf(text);
  if (excess !== null) throw refuse(path, excess);
  const data = parsed(path, text);
  return Object.freeze({ file: path, data, place: () => ({ line: 0, column: 0 }) });
}

function readText(path: string): string {
  try {
    const stats = statSync(path);
    if (!stats.isFile()) throw refuse(path, "is not a regular file, expected a JSON file");
    if (stats.size > LARGEST)
      throw refuse(path, `${Math.ceil(stats.size / 2 ** 20)} MiB, at most ${LARGEST / 2 ** 20} MiB can be read`);
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
    const message = /^\s*[{[]/.test(text) ? "not JSON that can be read; was it cut short?" : "not JSON";
    throw new InputError([{ file: path, ...place, path: "", message }]);
  }
}

/** What there is too much of, or null: marks are counted before anything makes values of them. */
function excessOf(text: string): string | null {
  let [open, holders, keys, values, texts] = [0, 0, 0, 0, 0];
  const different = new Set<string>();
  let before = 0; // where the last text opened
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) {
      before = at;
      at = endOfText(text, at);
      texts++;
    } else if (code === COMMA) values++;
    else if (code === COLON) {
      keys++;
      different.add(text.slice(before, at));
      if (different.size > MOST_DIFFERENT_KEYS) return `more than ${MOST_DIFFERENT_KEYS} different keys`;
    } else if (code === OPEN_LIST || code === OPEN_GROUP) {
      holders++;
      if (++open > DEEPEST) return `nested more than ${DEEPEST} levels deep`;
    } else if (code === CLOSE_LIST || code === CLOSE_GROUP) open = Math.max(0, open - 1);
    if (holders > MOST_HOLDERS) return `more than ${MOST_HOLDERS} lists and groups`;
    if (keys > MOST_KEYS) return `more than ${MOST_KEYS} keys`;
    if (values > MOST_VALUES) return `more than ${MOST_VALUES} values`;
    if (texts - keys > MOST_TEXTS) return `more than ${MOST_TEXTS} texts`;
  }
  return null;
}

/** Where a text that opens at `at` is closed, or the end. */
function endOfText(text: string, at: number): number {
  let end = at + 1;
  for (let code = text.charCodeAt(end); code !== QUOTE && end < text.length; code = text.charCodeAt(end))
    end += code === BACKSLASH ? 2 : 1;
  return end;
}

const [QUOTE, BACKSLASH, OPEN_LIST, CLOSE_LIST, OPEN_GROUP, CLOSE_GROUP] = [34, 92, 91, 93, 123, 125];
const [COMMA, COLON] = [44, 58];

const refuse = (path: string, message: string): InputError => new InputError([fileProblem(path, message)]);
