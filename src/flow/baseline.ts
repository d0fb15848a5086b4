// Writes a baseline: the compact file of a map for later comparisons.
import { lineJson } from "../base/canonical.js";
import { InputError } from "../base/problem.js";
import { sealed } from "../base/seal.js";
import { baselineOf } from "../compare/baseline.js";
import { modelChanges } from "../compare/model-changes.js";
import { planOf } from "../compare/question.js";
import { isFile } from "../files/folder.js";
import { writeAtomically } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import { withoutFormat } from "../map/simulable.js";
import { changesWords } from "../report/index.js";
import { readMap } from "./read-map.js";

export const writeBaseline = (map: StabilityMap, file: string): void =>
  writeAtomically(file, `${lineJson(sealed(baselineOf(map)))}\n`);

/** The baseline that is there, whoever changed it; null where there is none that can be read. */
export function earlierBaseline(file: string): StabilityMap | null {
  if (!isFile(file)) return null;
  try {
    return readMap(file, { unsealed: true });
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** What a new baseline replaces, and which of the two counts; null where it answers as the earlier one did. */
export function replacedWords(earlier: StabilityMap, map: StabilityMap): string | null {
  const model = modelChanges(withoutFormat(earlier.model as object), withoutFormat(map.model as object));
  const sameCraft = earlier.airframe.digest === map.airframe.digest;
  const samePlan = planOf(earlier).digest === planOf(map).digest;
  if (sameCraft && samePlan) return null;
  const what = sameCraft ? "the sweep or a script" : changesWords({ model });
  return `replaces another baseline, and gates are held against the new one from now on. Changed since: ${what}`;
}
