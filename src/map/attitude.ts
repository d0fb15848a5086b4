// How quickly the attitude follows at the starting tune, worst over every throttle level and condition.
import { attitudeBandwidth, attitudeResponse } from "../theory/bandwidth.js";
import type { CommandPath } from "../theory/controller.js";
import { roundToTwelveDigits } from "./display-units.js";
import type { AxisTheory } from "./margins.js";
import type { AttitudeFollowing } from "./theory-format.js";

/** SI gains; `pathOn` is what commands pass on these frequencies; null where a loop's phase never reaches -180 degrees, so that the terms have no meaning. */
export function attitudeFollowing(
  { loops }: Pick<AxisTheory, "loops">,
  gains: { readonly p: number; readonly i: number; readonly d: number },
  pathOn: (frequencies: Float64Array) => CommandPath | null = () => null,
): AttitudeFollowing | null {
  const found = loops.map(({ pieces }) =>
    attitudeBandwidth(pieces.frequencies, attitudeResponse(pieces, gains, pathOn(pieces.frequencies))),
  );
  const defined = found.flatMap((one) => one ?? []);
  if (defined.length < found.length || defined.length === 0) return null;
  const delays = defined.flatMap(({ phaseDelay }) => phaseDelay ?? []);
  return {
    bandwidth: roundToTwelveDigits(Math.min(...defined.map(({ bandwidth }) => bandwidth)) / (2 * Math.PI)),
    phaseDelay: delays.length < defined.length ? null : roundToTwelveDigits(1000 * Math.max(...delays)),
  };
}
