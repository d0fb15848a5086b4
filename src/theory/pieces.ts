// The open loop of one axis split by gain: L = P a + D b + I c at each frequency, so that another pair of gains costs
// six multiplications per frequency and no physics.
import type { AxisGains } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import type { Trim } from "../airframe/trim.js";
import { type ControllerPieces, controllerPieces } from "./controller.js";
import { type ComplexArray, coarseGrid, complexArray, loopGrid, product } from "./frequency.js";
import {
  type AxisName,
  closedPlant,
  exactPeriod,
  type GainsByAxis,
  openPlant,
  type Period,
  plantResponse,
} from "./plant.js";
import { openLoopUnstable } from "./poles.js";
import { refined } from "./refine.js";

export interface LoopPieces {
  /** rad/s, rising. */
  readonly frequencies: Float64Array;
  /** Rate per command, the other loops closed. */
  readonly plant: ComplexArray;
  readonly a: ComplexArray; // L of one unit of P
  readonly b: ComplexArray; // L of one unit of D
  readonly c: ComplexArray; // L of one unit of I
  /** What the integral makes of P's error. */
  readonly sum: ComplexArray;
  /** The grid ends at half the sampling rate, where the response is real and meets its mirror image. */
  readonly closes: boolean;
  /** Unstable poles of the open loop. */
  readonly unstable: number;
}

/**
 * Pieces of a loop with any plant response. What counts encirclements from them assumes that the plant's gain at
 * rest is positive and that the open loop has at most two poles at rest (a rate integrator and the controller's).
 */
export function loopPieces(
  frequencies: Float64Array,
  plant: ComplexArray,
  controller: ControllerPieces,
  kind: { readonly closes: boolean; readonly unstable?: () => number },
): LoopPieces {
  const a = product(plant, controller.p);
  let unstable: number | null = null;
  return Object.freeze({
    frequencies,
    plant,
    a,
    b: product(plant, controller.d),
    c: product(a, controller.sum),
    sum: controller.sum,
    closes: kind.closes,
    // Not everybody asks, and poles take time.
    get unstable() {
      unstable ??= kind.unstable?.() ?? 0;
      return unstable;
    },
  });
}

/** Pieces of one axis of a craft at a trim, on a grid from 0.5 rad/s to half the control rate, denser where it must be. */
export function axisPieces(
  craft: Craft,
  trim: Trim,
  axis: AxisName,
  holding: GainsByAxis,
  period: Period = exactPeriod,
): LoopPieces {
  const grid = loopGrid(1 / craft.airframe.controller.rate);
  const { frequencies, values: plant } = refined(grid, plantResponse(craft, trim, axis, holding, period));
  const controller = controllerPieces(craft.airframe, frequencies);
  return loopPieces(frequencies, plant, controller, {
    closes: true,
    unstable: () => openLoopUnstable(craft, trim, axis, holding),
  });
}

/**
 * Pieces of any axis under any holding from one pass over the physics, on a coarser grid: for a choice among many
 * holdings. Margins carry an error below 0.01 dB and 0.1 degrees. What is broken must leave a stable loop: unstable
 * poles of the open loop are not looked for.
 */
export function coarsePieces(
  craft: Craft,
  trim: Trim,
  period: Period = exactPeriod,
): (axis: AxisName, holding: GainsByAxis) => LoopPieces {
  const frequencies = coarseGrid(1 / craft.airframe.controller.rate);
  const open = openPlant(craft, trim, period)(frequencies);
  const controller = controllerPieces(craft.airframe, frequencies);
  return (axis, holding) =>
    loopPieces(frequencies, closedPlant(craft, open, axis, holding, frequencies), controller, { closes: true });
}

/** L(P, D, I) over the grid, written into `out`. */
export function openLoop(
  { a, b, c }: LoopPieces,
  { p, d, i }: AxisGains,
  out: ComplexArray = complexArray(a.re.length),
): ComplexArray {
  for (let k = 0; k < a.re.length; k++) {
    out.re[k] = p * a.re[k] + d * b.re[k] + i * c.re[k];
    out.im[k] = p * a.im[k] + d * b.im[k] + i * c.im[k];
  }
  return out;
}
