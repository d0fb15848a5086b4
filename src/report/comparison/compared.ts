// What a comparison page is drawn from: both maps and the drift between them.
import type { Drift } from "../../compare/format.js";
import type { StabilityMap } from "../../map/format.js";

export interface Compared {
  readonly drift: Drift;
  readonly base: StabilityMap;
  readonly candidate: StabilityMap;
}
