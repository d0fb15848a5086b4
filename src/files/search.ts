// Searches a file of unknown kind, however large it is and whatever it holds.
import { closeSync, fstatSync, openSync, readSync } from "node:fs";

const PIECE = 2 ** 20; // bytes
const OVERLAP = 128; // bytes; no text that is looked for is longer
const MOST = 128 * PIECE; // what lies beyond is not searched

/** The first bytes of an ordinary file as Latin-1 text; empty where there is none, or it may not be read. */
export const headOf = (path: string, bytes: number): string => piecesOf(path, bytes).next().value ?? "";

/** What the pattern finds first in an ordinary file read as Latin-1, or null. */
export function searched(path: string, pattern: RegExp): RegExpExecArray | null {
  let before = "";
  for (const piece of piecesOf(path, PIECE)) {
    const found = pattern.exec(before + piece);
    if (found !== null) return found;
    before = piece.slice(-OVERLAP);
  }
  return null;
}

function* piecesOf(path: string, size: number): Generator<string, undefined> {
  const file = opened(path);
  if (file === null) return undefined;
  try {
    const buffer = Buffer.alloc(size);
    for (let at = 0; at < MOST; at += size) {
      const length = fstatSync(file).isFile() ? readSync(file, buffer, 0, size, at) : 0;
      if (length === 0) return undefined;
      yield buffer.toString("latin1", 0, length);
    }
  } finally {
    closeSync(file);
  }
  return undefined;
}

/** Null where it cannot be opened; the next reader reports the reason. */
function opened(path: string): number | null {
  try {
    return openSync(path, "r");
  } catch {
    return null;
  }
}
