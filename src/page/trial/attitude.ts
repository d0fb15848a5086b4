// Where up is for the camera in the nose, from the body rates alone; the trial starts level.
import type { Recording } from "./recording.js";

/** How the horizon stands in the picture of a camera that looks along the nose. */
export interface Horizon {
  /** rad, clockwise, by which the level picture is turned. */
  readonly turn: number;
  /** Tangent of the angle by which the horizon lies below the middle of the picture, along the picture's own up. */
  readonly below: number;
}

/** The direction "up" in the body (x forward, y left, z up) at every sample: three numbers each. */
export function upward({ rates: [p, q, r], period }: Recording): Float64Array {
  const out = new Float64Array(3 * p.length);
  let up: Vector = [0, 0, 1];
  for (let k = 0; k < p.length; k++) {
    out.set(up, 3 * k);
    const rate: Vector = [p[k] as number, q[k] as number, r[k] as number];
    // A fixed direction seen from a turning body: du/dt = u x w, by the midpoint rule, then brought back to length 1.
    const half = along(up, turned(up, rate), 0.5 * period);
    up = unit(along(up, turned(half, rate), period));
  }
  return out;
}

type Vector = readonly [number, number, number];

const turned = ([x, y, z]: Vector, [p, q, r]: Vector): Vector => [y * r - z * q, z * p - x * r, x * q - y * p];
const along = (a: Vector, b: Vector, by: number): Vector => [a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2]];
const unit = (a: Vector): Vector => {
  const length = Math.hypot(...a);
  return [a[0] / length, a[1] / length, a[2] / length];
};

/** The horizon at a sample. */
export function horizonAt(up: Float64Array, k: number): Horizon {
  const [x, y, z] = [up[3 * k] as number, up[3 * k + 1] as number, up[3 * k + 2] as number];
  const across = Math.max(1e-6, Math.hypot(y, z));
  return { turn: Math.atan2(-y, z), below: x / across };
}
