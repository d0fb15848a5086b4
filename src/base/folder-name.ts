// Names as folders: distinct names give distinct folders on every file system, also where it ignores case or Unicode
// normalisation.
import { canonicalJson } from "./canonical.js";
import { hex, sha256 } from "./digest.js";

const LONGEST = 40; // bytes, so that four of them and their digests stay below the 255 of one name
const DIGITS = 8;
const DIGEST = new RegExp(`(^|-)[0-9a-f]{${DIGITS}}$`);
/** What every file system keeps as it is. */
const PLAIN = /^[a-z0-9]+(-[a-z0-9]+)*$/;
/** Windows keeps these for devices, whatever ends the name. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)$/;

interface Named {
  readonly name: string;
  readonly version: string;
}

/** A sweep's folder: its name where that is small letters a to z, digits and hyphens, else something like it and a digest. */
export function sweepFolder(name: string): string {
  const short = shortened(name);
  return short === name && PLAIN.test(name) && !DIGEST.test(name) && !DEVICE.test(name)
    ? short
    : `${short}-${digestOf(name)}`;
}

/**
 * A craft's folder: name and version, plain where exactly one craft can be meant: a name with one capital, its first
 * letter, and a version without a hyphen; else with a digest.
 */
export function craftFolder({ name, version }: Named): string {
  const short = `${shortened(name)}-${shortened(version)}`;
  const plainName = PLAIN.test(short) && capital(shortened(name)) === name && !name.split("-").includes(BETWEEN);
  const plainVersion = shortened(version) === version && !version.includes("-") && !DIGEST.test(version);
  return plainName && plainVersion ? short : `${short}-${digestOf(name, version)}`;
}

/** The file of a model, all versions of it: plain where exactly one model can be meant, else with a digest. */
export function modelFileName(name: string): string {
  const short = shortened(name);
  const plain = PLAIN.test(short) && capital(short) === name && !DIGEST.test(short) && !DEVICE.test(short);
  return plain ? short : `${short}-${digestOf(name)}`;
}

/** The folder of two crafts compared. */
export const pairFolder = (base: Named, candidate: Named): string =>
  `${craftFolder(base)}-${BETWEEN}-${craftFolder(candidate)}`;

const BETWEEN = "to";

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Small letters and digits of every script; names that become alike differ by their digest. */
function shortened(name: string): string {
  const dashed = name
    .normalize("NFC")
    .toLowerCase()
    // Beyond 16 bits a letter is too new or too rare for some file systems.
    .replace(/[^\p{L}\p{M}\p{N}]|[\u{10000}-\u{10ffff}]/gu, "-")
    .replace(/-+/g, "-");
  let short = "";
  for (const letter of dashed) {
    if (Buffer.byteLength(short + letter) > LONGEST) break;
    short += letter;
  }
  return short.replace(/^-|-$/g, "") || "unnamed";
}

/** Of the texts as they were written, byte by byte. */
const digestOf = (...texts: readonly string[]): string => hex(sha256(canonicalJson(texts))).slice(0, DIGITS);
