// Files in, checked and resolved: the airframe of a model, the question of a sweep.
import type { Airframe } from "../airframe/airframe.js";
import { parseAirframe } from "../airframe/resolve.js";
import { type Document, problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { readDocument } from "../files/read.js";
import { besideSweep, parseSweep } from "../sweep/resolve.js";
import type { Sweep } from "../sweep/sweep.js";

/** What was read, with the document that still knows where each value stands. */
export interface Read<T> {
  readonly value: T;
  readonly document: Document;
}

/** The airframe of a model file. Throws InputError with every problem found. */
export function readAirframe(path: string): Read<Airframe> {
  const document = readDocument(path);
  return { value: parseAirframe(document), document };
}

/** The sweep of a sweep file and its scripts. Throws InputError with every problem found. */
export function readSweep(path: string): Read<Sweep> {
  const document = readDocument(path);
  return { value: parseSweep(document, readDocument), document };
}

/** Path of the model a sweep names; InputError where it names none. */
export function modelOf({ value, document }: Read<Sweep>): string {
  if (value.model !== null) return besideSweep(document.file, value.model);
  throw new InputError([
    problemAt(document, ["model"], 'missing, and no --model was given (try "model: ../models/sandpiper-r1.yaml")'),
  ]);
}
