// Canonical JSON and its digest: one text per value, whatever the order its keys were written in.
import { createHash } from "node:crypto";

/** JSON with sorted keys; numbers as JavaScript prints them. Throws on NaN and infinities. */
export function canonicalJson(value: unknown): string {
  if (typeof value === "number" && !Number.isFinite(value))
    throw new RangeError("canonical JSON holds finite numbers only");
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value).filter(([, part]) => part !== undefined);
    entries.sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, part]) => `${JSON.stringify(key)}:${canonicalJson(part)}`).join(",")}}`;
  }
  return JSON.stringify(value ?? null);
}

/** SHA-256 of the canonical JSON, hexadecimal. */
export const digestOf = (value: unknown): string => createHash("sha256").update(canonicalJson(value)).digest("hex");
