// One line of a file as a record, or what is wrong with it and where.
import { check } from "../base/check.js";
import { hex, sha256 } from "../base/digest.js";
import { type Document, problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { checkSeal } from "../base/seal.js";
import type { TrendRecord } from "./format.js";
import { recordShape } from "./shape.js";

/** The record in a document of one line, checked: shape, then seal. InputError with what is wrong. */
export function parseRecord(document: Document, line: string): TrendRecord {
  const record = check(recordShape, document) as unknown as TrendRecord;
  if (isAsWritten(line, record.seal)) return record;
  const { fault } = checkSeal(document.data as object);
  if (fault !== null)
    throw new InputError([problemAt(document, ["seal"], "broken, the record was changed after it was written")]);
  return record;
}

const SEAL = /"seal":"[0-9a-f]{64}",/;

/** A line that nobody touched is sealed letter by letter, which is quicker than writing its values anew: files hold thousands. */
const isAsWritten = (line: string, seal: string): boolean => hex(sha256(line.replace(SEAL, ""))) === seal;
