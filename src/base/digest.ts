// SHA-256 over texts and bytes: content keys, and the seal at the end of binary files.
import { createHash } from "node:crypto";
import { canonicalJson } from "./canonical.js";

/** 32 bytes over the parts, one after the other. Texts count as UTF-8. */
export function sha256(...parts: readonly (string | Uint8Array)[]): Uint8Array {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return new Uint8Array(hash.digest());
}

export const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");

export const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, at) => byte === b[at]);

/** SHA-256 of the canonical JSON of plain data, hexadecimal. */
export const digestOf = (value: unknown): string => hex(sha256(canonicalJson(value)));
