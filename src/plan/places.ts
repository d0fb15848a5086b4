// The operating points of a sweep: every throttle level under every condition, with its linear loops.
import type { Craft } from "../airframe/craft.js";
import type { Trim } from "../airframe/powered.js";
import { coarsePieces } from "../theory/axis-pieces.js";
import type { LoopPieces } from "../theory/pieces.js";
import { type AxisName, exactPeriod, type GainsByAxis, type Period } from "../theory/plant.js";

export interface Place extends Pick<Level, "throttle" | "condition"> {
  /** "at 45 % throttle, fresh pack". */
  readonly words: string;
  readonly throttle: number; // duty
  readonly condition: string;
  readonly craft: Craft;
  readonly trim: Trim;
  /** The loop of any axis there, the others closed by the holding. */
  readonly loop: LoopOf;
}

export type LoopOf = (axis: AxisName, holding: GainsByAxis) => LoopPieces;

/** One level under one condition. */
export interface Level {
  readonly throttle: number; // duty
  readonly hovering: boolean;
  readonly condition: string;
  readonly craft: Craft;
  readonly trim: Trim;
}

/** Operating points at which a rotor stands still are left out: no linear loop describes them. */
export const placesOf = (levels: readonly Level[]): Place[] =>
  levels
    .filter(({ trim }) => trim.speeds.every((speed) => speed > 0))
    .map(({ throttle, hovering, condition, craft, trim }) => {
      const level = hovering ? "in hover" : `at ${Number((100 * throttle).toPrecision(4))} % throttle`;
      const loop = coarsePieces(craft, trim, exactPeriod, "shared");
      return { words: `${level}, ${condition}`, throttle, condition, craft, trim, loop };
    });

/** The same operating point with another model of the control period. */
export const steppedLoop = ({ craft, trim }: Pick<Place, "craft" | "trim">, period: Period): LoopOf =>
  coarsePieces(craft, trim, period);
