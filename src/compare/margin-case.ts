// The throttle and pack at which a tune is short of a margin: theory's answer for the model in a map.

import { THEORY } from "../base/theory-name.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import type { StabilityMap } from "../map/format.js";
import type { LimitingCase } from "../map/limiting-case.js";
import { storedAirframe } from "../map/simulable.js";
import { type MarginKind, shortestMargin } from "../why/shortest-margin.js";
import type { Axis } from "./format.js";
import { packsAsked } from "./question.js";

/** Gains in display units; null where the map's model or packs are not as this version reads them. */
export function marginCase(
  map: StabilityMap,
  axis: Axis,
  { p, d }: { readonly p: number; readonly d: number },
  kind: MarginKind,
): LimitingCase | null {
  const [airframe, asked] = [storedAirframe(map), packsAsked(map)];
  if (airframe === null || asked === null) return null;
  const found = shortestMargin(airframe, asked, axis, { p: p * P_UNIT, d: d * D_UNIT }, kind);
  if (found === null) return null;
  return { script: THEORY, throttle: roundToTwelveDigits(100 * found.throttle), rate: 0, condition: found.condition };
}
