// A grid made denser where a notch turns the controller's response within a few of its steps.
import type { Airframe } from "../airframe/airframe.js";
import { gyroChain, isNotch, slopeChain, stagesOf } from "../airframe/filter.js";
import { controllerPieces } from "./controller.js";
import { oncePer, recentBy } from "./once.js";
import { refined } from "./refine.js";

/** Sets of filters whose grids are kept. */
const FILTERS = 8;
const keptOn = oncePer((_: Float64Array) => recentBy<Float64Array>(FILTERS));

/** The grid, with what the controller's notches ask for; without any, the grid as it is. The same array for all with these filters. */
export function denserAtNotches(grid: Float64Array, airframe: Airframe): Float64Array {
  const chains = [...gyroChain(airframe), ...slopeChain(airframe)];
  if (!chains.some(isNotch)) return grid;
  const [anyThrottle, along] = [0, (frequencies: Float64Array) => controllerPieces(airframe, anyThrottle, frequencies)];
  const { rate } = airframe.controller;
  return keptOn(grid)(`${rate} ${gyroChain(airframe).length} ${stagesOf(chains, airframe).join(";")}`, () => {
    const gyro = refined(grid, (frequencies) => along(frequencies).p);
    return refined(gyro.frequencies, (frequencies) => along(frequencies).d).frequencies;
  });
}
