// Writes a baseline: the compact file of a map for later comparisons.
import { lineJson } from "../base/canonical.js";
import { sealed } from "../base/seal.js";
import { baselineOf } from "../compare/baseline.js";
import { writeAtomically } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";

export const writeBaseline = (map: StabilityMap, file: string): void =>
  writeAtomically(file, `${lineJson(sealed(baselineOf(map)))}\n`);
