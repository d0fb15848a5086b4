// The loops of a craft at every throttle and pack of a question, as a plan has them: the hover and the gains that hold the other
// axis are the craft's own.
import type { Airframe } from "../airframe/airframe.js";
import { craftUnder } from "../airframe/craft.js";
import { filtersFit } from "../airframe/moving-filter.js";
import { hoverTrim, hoverTrimFrom } from "../airframe/trim.js";
import { at } from "../base/at.js";
import { holdingGains } from "../plan/holding.js";
import { type Level, type Place, placesOf } from "../plan/places.js";
import { sharedTrim } from "../plan/shared-trim.js";
import { softHold } from "../plan/soft-hold.js";
import { requestedVariants } from "../plan/variants.js";
import type { Axis, Sweep } from "../sweep/sweep.js";
import type { LoopPieces } from "../theory/pieces.js";

/** What a sweep asks at: its throttles and packs. */
export type Asked = Pick<Sweep, "scripts" | "conditions">;

export type LoopsByAxis = Readonly<Record<Axis, readonly LoopPieces[]>>;

/** A loop, and the throttle and pack it is the loop of. */
export interface PlacedLoop extends Pick<Place, "throttle" | "condition"> {
  readonly loop: LoopPieces;
}

/** Collective duty at which a craft near the one in question hovers, by condition. */
type Guesses = readonly number[];

/** Null where the craft cannot hover everywhere. */
export function hoverGuesses(airframe: Airframe, { conditions }: Asked): Guesses | null {
  const duties = conditions.map((condition) => hoverTrim(craftUnder(airframe, condition))?.throttle ?? null);
  return duties.includes(null) ? null : (duties as number[]);
}

/** Null where no such craft can be: it cannot hover, its filters do not fit its rate, or nothing holds it. */
export function loopsOf(airframe: Airframe, asked: Asked, guesses: Guesses): LoopsByAxis | null {
  const placed = placedLoops(airframe, asked, guesses);
  if (placed === null) return null;
  const of = (axis: Axis) => placed[axis].map(({ loop }) => loop);
  return { roll: of("roll"), pitch: of("pitch") };
}

/** The same with the throttle and the pack of each. */
export function placedLoops(
  airframe: Airframe,
  asked: Asked,
  guesses: Guesses,
): Readonly<Record<Axis, readonly PlacedLoop[]>> | null {
  const { yaw } = airframe.controller;
  if (!filtersFit(airframe)) return null;
  const conditions = asked.conditions.map((condition, k) => {
    const craft = craftUnder(airframe, condition);
    return { condition, craft, hover: hoverTrimFrom(craft, at(guesses, k)) };
  });
  const levels = levelsOf(asked, conditions);
  const first = at(conditions, 0);
  if (levels === null || first.hover === null) return null;
  const hover = first.hover;
  const places = placesOf([...levels.values()].map(({ level }) => level));
  const soft = (axis: Axis) => softHold(first.craft, hover, axis);
  const held = holdingGains(airframe, places, { roll: soft("roll"), pitch: soft("pitch") });
  if (!("holding" in held)) return null;
  const holding = { ...held.holding, yaw };
  const of = (axis: Axis) =>
    places
      .filter((place) => isAskedOn(levels, axis, place))
      .map(({ throttle, condition, loop }): PlacedLoop => ({ throttle, condition, loop: loop(axis, holding) }));
  return { roll: of("roll"), pitch: of("pitch") };
}

interface AskedLevel {
  readonly level: Level;
  readonly axes: Set<Axis>;
}

type Conditions = readonly (Pick<Level, "craft"> & {
  readonly condition: Asked["conditions"][number];
  readonly hover: Level["trim"] | null;
})[];

/** Every throttle under every condition, each once; null where the craft cannot hover under one. */
function levelsOf(asked: Asked, conditions: Conditions): ReadonlyMap<string, AskedLevel> | null {
  const levels = new Map<string, AskedLevel>();
  for (const variant of requestedVariants(asked)) {
    const { condition, craft, hover } = at(conditions, variant.condition);
    if (hover === null) return null;
    const key = `${variant.level} ${variant.condition}`;
    const hovering = variant.level === "hover";
    const trim = variant.level === "hover" ? hover : sharedTrim(craft, variant.level);
    const level = { throttle: trim.throttle, hovering, condition: condition.name, craft, trim };
    const one = levels.get(key) ?? { level, axes: new Set<Axis>() };
    one.axes.add(variant.axis);
    levels.set(key, one);
  }
  return levels;
}

const isAskedOn = (levels: ReadonlyMap<string, AskedLevel>, axis: Axis, { trim }: Place): boolean =>
  [...levels.values()].some((one) => one.level.trim === trim && one.axes.has(axis));
