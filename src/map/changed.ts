// Whether a map is of a model with keys set anew, not of a file's.
import type { Airframe } from "../airframe/airframe.js";
import type { StabilityMap } from "./format.js";

export const isChanged = ({ model }: Pick<StabilityMap, "model">): boolean =>
  (model as Pick<Airframe, "changed"> | null)?.changed !== undefined;
