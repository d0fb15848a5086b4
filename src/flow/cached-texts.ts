// Finished texts of a run as the bytes of one file: format line, key, a line with their names and sizes, the
// texts, and a seal over all of it.
import { z } from "zod";
import { canonicalJson } from "../base/canonical.js";
import { hex, sameBytes, sha256 } from "../base/digest.js";

/** Texts by name. */
export type Texts = Readonly<Record<string, string>>;

const FORMAT = new TextEncoder().encode("gainscape.texts/1\n");
const KEY_AT = FORMAT.length;
const NAMES_AT = KEY_AT + 32;
const SEAL = 32;
const NEWLINE = 10;
const LONGEST_NAMES = 4096; // bytes

const namesSchema = z.array(z.tuple([z.string().max(100), z.int().min(0)])).max(16);

/** `key`: 64 hexadecimal digits. */
export function encodeTexts(key: string, texts: Texts): Uint8Array {
  const parts = Object.entries(texts).map(([name, text]) => [name, Buffer.from(text, "utf8")] as const);
  const names = canonicalJson(parts.map(([name, bytes]) => [name, bytes.length]));
  const open = [FORMAT, Buffer.from(key, "hex"), Buffer.from(`${names}\n`), ...parts.map(([, bytes]) => bytes)];
  return Buffer.concat([...open, sha256(...open)]);
}

export interface CachedTexts {
  readonly key: string;
  readonly texts: Texts;
}

/** The texts in these bytes, or a short reason why there are none. */
export function readTexts(bytes: Uint8Array): CachedTexts | string {
  if (!sameBytes(bytes.subarray(0, KEY_AT), FORMAT)) return "is not a file of cached texts";
  const sealAt = bytes.length - SEAL;
  if (sealAt <= NAMES_AT) return "was cut short";
  if (!sameBytes(sha256(bytes.subarray(0, sealAt)), bytes.subarray(sealAt)))
    return "was cut short or changed after it was written";
  const end = bytes.subarray(NAMES_AT, NAMES_AT + LONGEST_NAMES).indexOf(NEWLINE);
  const parts = partsOf(bytes.subarray(NAMES_AT, NAMES_AT + Math.max(0, end)));
  if (parts === null) return "holds what no run writes";
  const texts: Record<string, string> = Object.create(null);
  let at = NAMES_AT + end + 1;
  for (const [name, size] of parts) {
    texts[name] = Buffer.from(bytes.subarray(at, at + size)).toString("utf8");
    at += size;
  }
  return at === sealAt ? { key: hex(bytes.subarray(KEY_AT, NAMES_AT)), texts } : "holds what no run writes";
}

/** The texts of just this key, or a short reason why they are not there. */
export function decodeTexts(key: string, bytes: Uint8Array): Texts | string {
  const decoded = readTexts(bytes);
  if (typeof decoded === "string") return decoded;
  return decoded.key === key ? decoded.texts : "holds other files than its name says";
}

/** Even in a sealed file the line is untrusted data. */
function partsOf(line: Uint8Array): readonly (readonly [name: string, size: number])[] | null {
  try {
    return namesSchema.safeParse(JSON.parse(Buffer.from(line).toString("utf8"))).data ?? null;
  } catch {
    return null;
  }
}
