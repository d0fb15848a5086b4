// SHA-256 of a file of any size, read in pieces.
import { createHash } from "node:crypto";
import { closeSync, openSync, readSync } from "node:fs";

const PIECE = 1 << 20; // bytes

/** Hexadecimal, over the files one after the other. They have been read before: what is wrong with them was said then. */
export function fileDigest(...paths: readonly string[]): string {
  const hash = createHash("sha256");
  const piece = new Uint8Array(PIECE);
  for (const path of paths) {
    const handle = openSync(path, "r");
    try {
      for (let length = readSync(handle, piece); length > 0; length = readSync(handle, piece))
        hash.update(piece.subarray(0, length));
    } finally {
      closeSync(handle);
    }
  }
  return hash.digest("hex");
}
