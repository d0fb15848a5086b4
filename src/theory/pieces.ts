// The open loop of one axis split by gain: L = P a + D b + I c at each frequency, so that another pair of gains costs
// six multiplications per frequency and no physics.
import type { AxisGains } from "../airframe/airframe.js";
import type { ControllerPieces } from "./controller.js";
import { type ComplexArray, complexArray, product } from "./frequency.js";

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
  /** What a schedule makes of P. */
  readonly scale: number;
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
    scale: controller.scale,
    closes: kind.closes,
    // Not everybody asks, and poles take time.
    get unstable() {
      unstable ??= kind.unstable?.() ?? 0;
      return unstable;
    },
  });
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
