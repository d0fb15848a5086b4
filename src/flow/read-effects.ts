// What a sweep's changes do, read back from beside the map of the model as it is.
import { type Document, problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import { checkSeal } from "../base/seal.js";
import type { Effects } from "../compare/effect-format.js";
import { parseEffects } from "../compare/parse-effects.js";
import { planOf } from "../compare/question.js";
import { isFile } from "../files/folder.js";
import { readJson } from "../files/json.js";
import type { StabilityMap } from "../map/format.js";
import { refuseOthers } from "./file-kind.js";
import { effectFiles } from "./paths.js";

const AGAIN = "simulate the sweep again";

/** Null where the folder of the map holds none. InputError where the file is damaged, or of another map. */
export function readEffects(folder: string, map: StabilityMap): Effects | null {
  const { effects: file } = effectFiles(folder);
  if (!isFile(file)) return null;
  refuseOthers(file, ["effects"], "what a sweep's changes do (effects.json of gainscape sweep)");
  const document = readJson(file);
  const { content, fault } = checkSeal(document.data as object);
  if (fault !== null)
    throw refusal(document, "seal", `broken, the file was changed after gainscape wrote it; ${AGAIN}`);
  const effects = parseEffects({ ...document, data: content });
  if (effects.planDigest !== planOf(map).digest)
    throw refusal(document, "planDigest", `not that of the map beside it; ${AGAIN}`);
  return effects;
}

const refusal = (document: Document, key: string, message: string): InputError =>
  new InputError([problemAt(document, [key], message)]);
