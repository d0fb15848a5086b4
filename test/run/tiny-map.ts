// The map of the tiny plan as its file holds it, simulated once for all tests.
import { simulate } from "../../src/flow/simulate.js";
import type { StabilityMap } from "../../src/map/format.js";
import { madeOnce } from "../fixtures/made-once.js";
import { tinyPlan } from "./tiny-plan.js";

const provenance = { productVersion: "0", command: "gainscape sweep x", model: "m.yaml", sweep: "s.yaml" };

export const tinyMap = async (): Promise<StabilityMap> =>
  JSON.parse(
    await madeOnce("tiny.json", async () =>
      JSON.stringify((await simulate(tinyPlan(), { workers: 0, provenance })).map),
    ),
  );
