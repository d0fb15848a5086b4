// Logs with a known truth: an axis with the shape K e^(-Ls) / (s (T s + 1)) under a PD controller, stepped exactly between samples.
import { fillGaussian, stream } from "../../src/base/random.js";
import type { FlightLog } from "../../src/flight/log.js";

/** Four rotors about the middle: the duty that each adds for a unit of command. */
export const X_MIXER = { roll: [-1, -1, 1, 1], pitch: [-1, 1, 1, -1], yaw: [1, -1, 1, -1] } as const;

export interface Motion {
  readonly step: number; // s
  readonly rate: Float64Array; // rad/s, roll
  readonly command: Float64Array; // share of a whole axis command
  readonly wanted: Float64Array | null; // rad/s
}

/** A log of roll alone, at an even duty. */
export function logOf({ step, rate, command, wanted }: Motion): FlightLog {
  const still = new Float64Array(rate.length);
  return {
    time: rate.map((_, n) => n * step),
    rate: { roll: rate, pitch: still, yaw: still },
    command: { roll: wanted, pitch: null, yaw: null },
    duty: X_MIXER.roll.map((share) => command.map((value) => 0.5 + share * value)),
    throttle: null,
    voltage: null,
    rotorSpeed: [null, null, null, null],
    stretches: [{ from: 0, to: rate.length }],
    step,
    remarks: [],
  };
}

export const normals = (count: number, ...keys: (string | number)[]): Float64Array => {
  const target = new Float64Array(count);
  fillGaussian(target, stream(...keys));
  return target;
};

export interface Axis {
  readonly authority: number; // rad/s^2 per whole command
  readonly lag: number; // s
  readonly delaySteps: number; // of the log's, beyond the hold's own
}

export interface Loop {
  readonly p: number; // command per rad/s
  readonly d: number; // command per rad/s^2
  readonly corner: number; // Hz, of D's low-pass
}

/** Torque noise (rad/s^2, one number a step) and the sensor's (rad/s). Without a loop the wanted rate is the command itself. */
export function simulated(
  axis: Axis,
  loop: Loop | null,
  step: number,
  wanted: Float64Array,
  torque: Float64Array,
  sensor: Float64Array,
): Motion {
  const { p, d, corner } = loop ?? { p: 0, d: 0, corner: 1 };
  const rate = new Float64Array(wanted.length);
  const command = new Float64Array(wanted.length);
  const decay = Math.exp(-step / axis.lag);
  const keep = Math.exp(-2 * Math.PI * corner * step);
  let [speed, acceleration, slope, before] = [0, 0, 0, 0];
  for (let n = 0; n < wanted.length; n++) {
    const seen = speed + (sensor[n] ?? 0);
    slope = keep * slope + ((1 - keep) * (seen - before)) / step;
    before = seen;
    rate[n] = seen;
    command[n] = loop === null ? (wanted[n] ?? 0) : p * ((wanted[n] ?? 0) - seen) - d * slope;
    const drive = axis.authority * (command[n - axis.delaySteps] ?? 0);
    speed += drive * step + (acceleration - drive) * axis.lag * (1 - decay) + (torque[n] ?? 0) * step;
    acceleration = drive + (acceleration - drive) * decay;
  }
  return { step, rate, command, wanted };
}

type Pair = readonly [number, number];
const times = ([a, b]: Pair, [c, d]: Pair): Pair => [a * c - b * d, a * d + b * c];
export const over = (a: Pair, [c, d]: Pair): Pair => {
  const square = c * c + d * d;
  return times(a, [c / square, -d / square]);
};

/** What the axis above does at w (rad/s) as its samples see it: closed form of the exact step, in z = e^(jwT). */
export function trueResponse({ authority, lag, delaySteps }: Axis, step: number, w: number): Pair {
  const turn = (steps: number): Pair => [Math.cos(w * step * steps), Math.sin(w * step * steps)];
  const z = turn(1);
  const decay = Math.exp(-step / lag);
  // a: acceleration K (1 - E) / (z - E); speed: (T + ...)
  const a: Pair = over([authority * (1 - decay), 0], [z[0] - decay, z[1]]);
  const direct = authority * (step - lag * (1 - decay));
  const sum: Pair = [direct + lag * (1 - decay) * a[0], lag * (1 - decay) * a[1]];
  return times(over(sum, [z[0] - 1, z[1]]), turn(-delaySteps));
}

/** The controller above, command per rad/s of measured rate, sign turned. */
export function trueController({ p, d, corner }: Loop, step: number, w: number): Pair {
  const keep = Math.exp(-2 * Math.PI * corner * step);
  const back: Pair = [Math.cos(w * step), -Math.sin(w * step)];
  const share = over([((1 - keep) * d) / step, 0], [1 - keep * back[0], -keep * back[1]]);
  const slope = times(share, [1 - back[0], -back[1]]);
  return [p + slope[0], slope[1]];
}

/** Moves of the sticks, rad/s: steps of random size and length, smoothed, in the first part of every `cycle` seconds. */
export function moves(
  count: number,
  step: number,
  size: number,
  share: number,
  cycle: number,
  ...keys: (string | number)[]
): Float64Array {
  const chance = normals(count, ...keys);
  const wanted = new Float64Array(count);
  let [target, now, next] = [0, 0, 0];
  for (let n = 0; n < count; n++) {
    const active = (n * step) % cycle < share * cycle;
    if (n >= next) {
      target = active ? size * (chance[n] ?? 0) : 0;
      // Lengths that differ: equal ones would leave holes in the spectrum.
      next = n + Math.ceil((0.03 + 0.1 * Math.abs(chance[n + 1] ?? 0)) / step);
    }
    now += (target - now) * Math.min(1, step / 0.01);
    wanted[n] = now;
  }
  return wanted;
}
