// The operating points of a model drawn from the spreads. The controller does not know the draw.
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder } from "../airframe/craft.js";
import type { Trim } from "../airframe/powered.js";
import { hoverTrimFrom, trimAt } from "../airframe/trim.js";
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

/** The drawn model as it is controlled: all of the controller but its latency is that of the model as it is written. */
export const underController = ({ controller }: Airframe, drawn: Airframe): Airframe => ({
  ...drawn,
  controller: { ...controller, latency: drawn.controller.latency },
});

/** The drawn craft under each condition, mixed as the written one; null where it cannot hover under one of them. */
export function drawnConditions(model: Airframe, conditions: readonly Under[]): Under[] | null {
  const crafts = conditions.flatMap(({ condition, craft: { mixer }, hover }): Under[] => {
    const craft = { ...craftUnder(model, condition), mixer };
    const own = hoverTrimFrom(craft, hover.throttle);
    return own === null ? [] : [{ condition, craft, hover: own }];
  });
  return crafts.length < conditions.length ? null : crafts;
}

/** The operating points of a drawn craft at the levels of the written one; null where it cannot hover. */
export function drawnPlaces(
  airframe: Airframe,
  drawn: Airframe,
  conditions: readonly Under[],
  variants: readonly At[],
): Place[] | null {
  const crafts = drawnConditions(underController(airframe, drawn), conditions);
  if (crafts === null) return null;
  const levels = new Map<string, Level>();
  for (const { throttle, hovering, condition } of variants) {
    const key = `${condition} ${throttle}`;
    if (levels.has(key)) continue;
    const { craft, hover, condition: under } = at(crafts, condition);
    const own = hovering ? hover.throttle : throttle;
    levels.set(key, { throttle: own, hovering, condition: under.name, craft, trim: trimAt(craft, own) });
  }
  return placesOf([...levels.values()]);
}
