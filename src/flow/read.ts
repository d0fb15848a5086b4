// Files in, checked and resolved: the airframe of a model, the question of a sweep.
import type { Airframe } from "../airframe/airframe.js";
import { parseAirframe } from "../airframe/resolve.js";
import { AIRFRAME_FORMAT } from "../airframe/schema.js";
import { type Document, problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { isFile } from "../files/folder.js";
import { readDocument } from "../files/read.js";
import { parseSweep, pathFromSweep } from "../sweep/resolve.js";
import { SWEEP_FORMAT } from "../sweep/schema.js";
import { SCRIPT_FORMAT } from "../sweep/script-schema.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { refuseOthers } from "./file-kind.js";
import { shippedScript } from "./shipped.js";

/** A value, with the document that knows the line and column of each part of it. */
export interface WithDocument<T> {
  readonly value: T;
  readonly document: Document;
}

/** The airframe of a model file. Throws InputError with every problem found. */
export function readAirframe(path: string): WithDocument<Airframe> {
  refuseOthers(path, ["model"], `a model (${AIRFRAME_FORMAT})`);
  const document = readDocument(path);
  return { value: parseAirframe(document), document };
}

/** The sweep of a sweep file and its scripts. Throws InputError with every problem found. */
export function readSweep(path: string): WithDocument<RequestedSweep> {
  refuseOthers(path, ["sweep"], `a sweep (${SWEEP_FORMAT})`);
  const document = readDocument(path);
  return { value: parseSweep(document, openScript), document };
}

/**
 * The document of a file that a sweep names as a script. A script that is named without a path and does not stand beside the
 * sweep is the one of that name that came with the program.
 */
export function openScript(path: string, name?: string): Document {
  const shipped = name === undefined || isFile(path) ? null : shippedScript(name);
  return shipped !== null && isFile(shipped) ? scriptIn(shipped) : scriptIn(path);
}

function scriptIn(path: string): Document {
  refuseOthers(path, ["script"], `a script (${SCRIPT_FORMAT})`);
  return readDocument(path);
}

/** Path of the model a sweep names; InputError where it names none. */
export function modelOf({ value, document }: WithDocument<RequestedSweep>): string {
  if (value.model !== null) return pathFromSweep(document.file, value.model);
  throw new InputError([
    problemAt(document, ["model"], 'missing, and no --model was given (try "model: ../models/sandpiper-r1.yaml")'),
  ]);
}
