// The compact file that keeps a map for later comparisons.
import { lineJson } from "../base/line-json.js";
import { baselineOf } from "../compare/baseline.js";
import { writeWhole } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";

export const writeBaseline = (map: StabilityMap, file: string): void =>
  writeWhole(file, `${lineJson(baselineOf(map))}\n`);
