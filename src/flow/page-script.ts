// The script embedded in the report's page and the kernels it simulates with, as built.
import type { Airframe } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { readPart } from "../files/part.js";
import { vectorCode } from "../kernel/load-vector.js";
import { simulatedShape } from "../kernel/rig.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";
import { type PageKernels, simulationData } from "../report/index.js";

/** The script's text; the path is the same from src and from dist. */
export const pageScript = (): string => readPart(new URL("../../dist/page/script.js", import.meta.url));

/** Kernels for the craft of a map; none where the map does not hold enough to simulate. */
export function pageKernels(map: StabilityMap): PageKernels {
  const simulation = simulationData(map, () => ({ d: [], p: [] }));
  if (simulation === null) return [];
  const crafts = (simulation.conditions as readonly { craft: Craft }[]).map(({ craft }) => ({
    ...craft,
    airframe: simulation.airframe as Airframe,
  }));
  const holding = simulation.holding as Plan["holding"];
  const shapes = crafts.flatMap((craft) =>
    (["roll", "pitch"] as const).map((axis) => simulatedShape({ holding }, craft, axis)),
  );
  return ([0, 1] as const).map((coupled) => {
    const shape = shapes.find((one) => one.coupled === coupled);
    return shape === undefined ? null : vectorCode({ ...shape, yaw: 0 });
  });
}
