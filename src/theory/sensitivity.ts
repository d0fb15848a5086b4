// How far each parameter of the model moves the P at which an axis gives out.
import type { Airframe } from "../airframe/airframe.js";
import { craftUnder, type Surroundings } from "../airframe/craft.js";
import { hoverTrim, trimAt } from "../airframe/trim.js";
import { ln } from "../base/elementary.js";
import { axisPieces, nearbyPieces } from "./axis-pieces.js";
import { ultimateGain } from "./boundary.js";
import { type Parameter, parametersOf } from "./parameters.js";
import type { LoopPieces } from "./pieces.js";
import type { AxisName, GainsByAxis } from "./plant.js";

/** Where the boundary is evaluated: one loop, one D (fraction per (rad/s^2)), and the P that is followed. */
export interface BoundaryPlace {
  readonly airframe: Airframe;
  readonly around: Surroundings;
  /** Collective duty, or where the craft hovers, whatever it weighs. */
  readonly throttle: number | "hover";
  readonly axis: AxisName;
  readonly holding: GainsByAxis;
  readonly d: number;
  readonly p: number;
  /** The loop itself, where it is at hand: the changed craft's are then looked at on its frequencies. */
  readonly loop?: Pick<LoopPieces, "frequencies">;
}

export interface Effect extends Omit<Parameter, "scaled"> {
  /** P over what it was, with the parameter `share` more and `share` less; null where it finds no end any more. */
  readonly more: number | null;
  readonly less: number | null;
}

/**
 * Effects of every parameter at `share` (0.1: ten per cent) to either side, the strongest first. `yieldIfDue` is called between
 * parameters: some fifty loops are made.
 */
export async function effectsOf(
  place: BoundaryPlace,
  share: number,
  yieldIfDue: () => Promise<void> = async () => {},
): Promise<Effect[]> {
  const { airframe, axis, p } = place;
  const ratio = (changed: Airframe) => {
    const moved = boundaryNear({ ...place, airframe: changed });
    return moved === null ? null : moved / p;
  };
  const effects: Effect[] = [];
  for (const { key, title, scaled } of parametersOf(axis, airframe)) {
    await yieldIfDue();
    const [more, less] = [ratio(scaled(airframe, 1 + share)), ratio(scaled(airframe, 1 - share))];
    effects.push({ key, title, more, less });
  }
  return effects.sort((a, b) => strength(b) - strength(a));
}

function strength({ more, less }: Effect): number {
  const sides = [more, less].map((ratio) => (ratio === null ? Number.POSITIVE_INFINITY : Math.abs(ln(ratio))));
  return Math.max(...sides);
}

/** The boundary is followed no further than this factor of P. */
const NEAR = 4;

/**
 * The ultimate gain nearest to the one followed at which more P makes the swing grow; null where the changed craft has
 * none near, or cannot hover.
 */
function boundaryNear({ airframe, around, throttle, axis, holding, d, p, loop }: BoundaryPlace): number | null {
  const craft = craftUnder(airframe, around);
  const trim = throttle === "hover" ? hoverTrim(craft) : trimAt(craft, throttle);
  if (trim === null) return null;
  const pieces =
    loop === undefined ? axisPieces(craft, trim, axis, holding) : nearbyPieces(loop, craft, trim, axis, holding);
  const range = { from: p / NEAR, to: p * NEAR };
  const points = ultimateGain(pieces, d, airframe.controller[axis].i, range).filter(({ perGrowth }) => perGrowth > 0);
  const distance = (gain: number) => Math.abs(ln(gain / p));
  const [nearest] = points.sort((a, b) => distance(a.p) - distance(b.p));
  return nearest?.p ?? null;
}
