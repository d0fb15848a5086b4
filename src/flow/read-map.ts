// Reads a finished map: a map.json, the folder of its report, or a baseline. Its seal is checked; with `unsealed` a
// missing or broken seal is accepted and the map is marked.
import { join } from "node:path";
import { type Document, problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { checkSeal, type SealFault } from "../base/seal.js";
import { BASELINE_FORMAT } from "../compare/baseline.js";
import { parseBaseline } from "../compare/parse-baseline.js";
import { isFolder } from "../files/folder.js";
import { readJson } from "../files/json.js";
import type { StabilityMap } from "../map/format.js";
import { parseMap } from "../map/parse.js";
import { MAP_FORMAT } from "../map/schema.js";
import { refuseOthers } from "./file-kind.js";
import { refuseOtherFormat } from "./older-format.js";

/** What to do about a broken seal. */
export interface SealOptions {
  /** Accept a map that was changed after it was made; it is marked from then on. */
  readonly unsealed?: boolean;
}

/** The map of a map.json, of a report's folder, or of a baseline. Throws InputError with every problem found. */
export function readMap(path: string, options: SealOptions = {}): StabilityMap {
  const { document, format } = readFormat(path);
  if (format === MAP_FORMAT || format === BASELINE_FORMAT) return checked(document, format, options);
  const found = typeof format === "string" ? `found "${format.slice(0, 60)}"` : "missing";
  const message = `${found}; expected ${MAP_FORMAT} (written by gainscape sweep) or ${BASELINE_FORMAT} (by gainscape baseline)`;
  throw new InputError([problemAt(document, ["format"], message)]);
}

/** Reports a broken seal first: for a damaged file one line says more than fifty. What never had one may not be a map. */
function checked(sealedDocument: Document, format: string, options: SealOptions): StabilityMap {
  const { content, fault: broken } = checkSeal(sealedDocument.data as object);
  const read = () => {
    const document = { ...sealedDocument, data: content };
    return format === MAP_FORMAT ? parseMap(document) : parseBaseline(document);
  };
  if (broken === null) return read();
  if (broken !== "no number" && options.unsealed) return { ...read(), unsealed: true };
  if (broken === "no seal") read();
  throw new InputError([problemAt(sealedDocument, ["seal"], BROKEN[broken])]);
}

const MEANT = "simulate it again, or, where it was edited by hand and is meant so, give --unsealed";
const BROKEN: Readonly<Record<SealFault, string>> = {
  "no seal": `missing, every map and baseline that gainscape writes has one; ${MEANT}`,
  "broken seal": `broken, the file was changed after gainscape wrote it; ${MEANT}`,
  "no number": "broken, the file holds a number too large to be one; simulate it again",
};

/** The map in a text, or null where the text is not a map. */
export function mapOf(file: string, text: string): StabilityMap | null {
  try {
    return parseMap({ file, data: JSON.parse(text), place: () => ({ line: 0, column: 0 }) });
  } catch (error) {
    if (error instanceof InputError || error instanceof SyntaxError) return null;
    throw error;
  }
}

/** The map of a map.json or of a report's folder, with everything that can be drawn, which a baseline lacks. */
export function readFullMap(path: string, options: SealOptions = {}): StabilityMap {
  const { document, format } = readFormat(path);
  if (format !== BASELINE_FORMAT) return readMap(path, options);
  const message = "a baseline holds only what a comparison needs; expected the map.json of gainscape sweep";
  throw new InputError([problemAt(document, ["format"], message)]);
}

function readFormat(path: string): { readonly document: Document; readonly format: unknown } {
  const file = isFolder(path) ? join(path, "map.json") : path;
  refuseOthers(file, ["map", "baseline"], "a map (map.json of gainscape sweep) or a baseline (of gainscape baseline)");
  const document = readJson(file);
  refuseOtherFormat(document);
  const { data } = document;
  return { document, format: typeof data === "object" && data !== null && "format" in data ? data.format : undefined };
}
