// A grid made denser where a notch turns the controller's response within a few of its steps.
import type { Airframe } from "../airframe/airframe.js";
import { gyroChain, isNotch, slopeChain } from "../airframe/filter.js";
import { controllerPieces } from "./controller.js";
import { refined } from "./refine.js";

/** The grid, with what the controller's notches ask for; without any, the grid as it is. */
export function denserAtNotches(grid: Float64Array, airframe: Airframe): Float64Array {
  if (![...gyroChain(airframe), ...slopeChain(airframe)].some(isNotch)) return grid;
  const [anyThrottle, along] = [0, (frequencies: Float64Array) => controllerPieces(airframe, anyThrottle, frequencies)];
  const gyro = refined(grid, (frequencies) => along(frequencies).p);
  return refined(gyro.frequencies, (frequencies) => along(frequencies).d).frequencies;
}
