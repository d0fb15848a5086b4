// A grid made denser where a notch turns the controller's response within a few of its steps.
import type { Airframe } from "../airframe/airframe.js";
import { isNotch, stagesOf } from "../airframe/filter.js";
import { gyroChainAt, slopeChainAt, type WorkingPoint } from "../airframe/moving-filter.js";
import { controllerPieces } from "./controller.js";
import { oncePer, recentBy } from "./once.js";
import { refined } from "./refine.js";

/** Sets of filters whose grids are kept. */
const FILTERS = 8;
const keptOn = oncePer((_: Float64Array) => recentBy<Float64Array>(FILTERS));

/**
 * The grid, with what the controller's notches ask for where they stand at a working point; without any, the grid as it is. The
 * same array for all with these filters there.
 */
export function denserAtNotches(grid: Float64Array, airframe: Airframe, point: WorkingPoint): Float64Array {
  const [gyro, slope] = [gyroChainAt(airframe, point), slopeChainAt(airframe, point)];
  if (![...gyro, ...slope].some(isNotch)) return grid;
  const along = (frequencies: Float64Array) => controllerPieces(airframe, point, frequencies);
  const { rate } = airframe.controller;
  return keptOn(grid)(`${rate} ${gyro.length} ${stagesOf([...gyro, ...slope], airframe).join(";")}`, () => {
    const ofP = refined(grid, (frequencies) => along(frequencies).p);
    return refined(ofP.frequencies, (frequencies) => along(frequencies).d).frequencies;
  });
}
