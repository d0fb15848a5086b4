// The simulated map that random ones are drawn over.
import { simulate } from "../../../src/flow/simulate.js";
import type { StabilityMap } from "../../../src/map/format.js";
import { tinyPlan } from "../../run/tiny-plan.js";

const provenance = { productVersion: "0", command: "gainscape sweep x", model: "m.yaml", sweep: "s.yaml" };

export async function baseMap(): Promise<StabilityMap> {
  return (await simulate(tinyPlan(), { workers: 0, provenance })).map;
}
