// One line of a file as a record, or what is wrong with it and where.
import { check } from "../base/check.js";
import type { Document } from "../base/document.js";
import { problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { checkSeal } from "../base/seal.js";
import type { TrendRecord } from "./format.js";
import { recordShape } from "./shape.js";

/** The record in a document, checked: shape, then seal. InputError with what is wrong. */
export function parseRecord(document: Document): TrendRecord {
  const record = check(recordShape, document) as unknown as TrendRecord;
  const { fault } = checkSeal(document.data as object);
  if (fault !== null)
    throw new InputError([problemAt(document, ["seal"], "broken, the record was changed after it was written")]);
  return record;
}
