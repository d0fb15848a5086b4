// The operating points of a model drawn from the spreads. The controller does not know the draw.
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder } from "../airframe/craft.js";
import { hoverTrimFrom, type Trim, trimAt } from "../airframe/trim.js";
import { at } from "../base/at.js";
import type { Condition } from "../sweep/sweep.js";
import { type Level, type Place, placesOf } from "./places.js";

/** The written craft under a condition. */
interface Under {
  readonly condition: Condition;
  readonly craft: Craft;
  readonly hover: Trim;
}

/** A throttle level of the written craft under a condition, by its index. */
interface At {
  readonly throttle: number;
  readonly hovering: boolean;
  readonly condition: number;
}

/** The drawn craft under a condition: the controller's own numbers are those of the model as it is written. */
export function drawnCraft(airframe: Airframe, drawn: Airframe, { condition, craft }: Under): Craft {
  const controller = { ...airframe.controller, latency: drawn.controller.latency };
  return { ...craftUnder({ ...drawn, controller }, condition), mixer: craft.mixer };
}

/** The operating points of a drawn craft at the levels of the written one; null where it cannot hover. */
export function drawnPlaces(
  airframe: Airframe,
  drawn: Airframe,
  conditions: readonly Under[],
  variants: readonly At[],
): Place[] | null {
  const crafts = conditions.map((condition) => drawnCraft(airframe, drawn, condition));
  const hovers = conditions.map(({ hover }, k) => hoverTrimFrom(at(crafts, k), hover.throttle));
  if (hovers.some((hover) => hover === null)) return null;
  const levels = new Map<string, Level>();
  for (const { throttle, hovering, condition } of variants) {
    const craft = at(crafts, condition);
    const own = hovering ? (hovers[condition]?.throttle ?? throttle) : throttle;
    const key = `${condition} ${throttle}`;
    if (levels.has(key)) continue;
    const { name } = at(conditions, condition).condition;
    levels.set(key, { throttle: own, hovering, condition: name, craft, trim: trimAt(craft, own) });
  }
  return placesOf([...levels.values()]);
}
