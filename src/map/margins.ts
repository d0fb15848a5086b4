// Gain and phase margin of a point: the worst over every throttle level and condition at which the axis is simulated, from
// the linearised loop.
import { at } from "../base/at.js";
import { levelTrim, type Plan, type Variant } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { axisPieces } from "../theory/axis-pieces.js";
import { type ComplexArray, complexArray } from "../theory/frequency.js";
import { marginsOf } from "../theory/margins.js";
import type { LoopPieces } from "../theory/pieces.js";

export interface PointMargins {
  /** dB the gain may rise; infinite where no rise destabilises. */
  readonly gainUp: number;
  /** dB it may fall; null where no fall destabilises. */
  readonly gainDown: number | null;
  readonly phase: number; // rad
  readonly gainBy: number; // variant whose level and condition have the smallest margin
  readonly phaseBy: number;
}

export interface AxisTheory {
  /** One level and condition each; `variant` is the first that is simulated there. */
  readonly loops: readonly { readonly variant: number; readonly pieces: LoopPieces }[];
  /** `i`: where it is not the model's. */
  margins(p: number, d: number, i?: number): PointMargins;
}

export function axisTheory(plan: Plan, axis: Axis, variants: readonly Variant[]): AxisTheory {
  const { controller } = plan.airframe;
  const holding = { ...plan.holding, yaw: controller.yaw };
  const loops = firstAtEachLevel(variants).map((variant) => {
    const { craft } = at(plan.conditions, variant.condition);
    return { variant: variant.index, pieces: axisPieces(craft, levelTrim(plan, variant), axis, holding) };
  });
  return theoryOf(loops, controller[axis].i);
}

/** Worst margins over these loops with an I where none is given. */
export function theoryOf(loops: AxisTheory["loops"], ownI: number): AxisTheory {
  const rooms = loops.map(({ pieces }) => complexArray(pieces.frequencies.length));
  return { loops, margins: (p, d, i = ownI) => worstMargins(loops, rooms, { p, d, i }) };
}

/** One variant, the first, for each throttle level and condition; in the order in which each level is simulated last. */
export function firstAtEachLevel(variants: readonly Variant[]): Variant[] {
  const first = new Map<string, Variant>();
  for (const variant of [...variants].reverse()) first.set(`${variant.throttle} ${variant.condition}`, variant);
  return [...first.values()].reverse();
}

function worstMargins(
  loops: AxisTheory["loops"],
  rooms: readonly ComplexArray[],
  gains: { p: number; d: number; i: number },
): PointMargins {
  let worst: PointMargins = {
    gainUp: Number.POSITIVE_INFINITY,
    gainDown: null,
    phase: Math.PI,
    gainBy: -1,
    phaseBy: -1,
  };
  for (const [index, { variant, pieces }] of loops.entries()) {
    const { gainUp, gainDown, phase } = marginsOf(pieces, gains, rooms[index]);
    const least = Math.min(gainUp ?? Number.POSITIVE_INFINITY, gainDown ?? Number.POSITIVE_INFINITY);
    const worstSoFar = Math.min(worst.gainUp, worst.gainDown ?? Number.POSITIVE_INFINITY);
    const radians = ((phase ?? 180) * Math.PI) / 180;
    worst = {
      gainUp: Math.min(worst.gainUp, gainUp ?? Number.POSITIVE_INFINITY),
      gainDown: gainDown === null ? worst.gainDown : Math.min(worst.gainDown ?? Number.POSITIVE_INFINITY, gainDown),
      phase: Math.min(worst.phase, radians),
      gainBy: least < worstSoFar ? variant : worst.gainBy,
      phaseBy: radians < worst.phase ? variant : worst.phaseBy,
    };
    if (worst.gainUp === 0 && worst.gainDown === 0 && worst.phase === 0) break; // nothing is less
  }
  return worst;
}
