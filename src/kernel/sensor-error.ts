// Sensor error: white noise of the declared density, and vibration lines at multiples of each rotor's speed.
import { cos, sin } from "../base/elementary.js";
import { fillGaussian, stream } from "../base/random.js";
import type { Plan, Variant } from "../plan/plan.js";
import * as m from "./memory.js";
import type { Schedule } from "./schedule.js";

/** Sigma of white noise sampled at a rate is density sqrt(rate / 2), the density being one-sided. */
const noiseSigma = (density: number, rate: number): number => density * Math.sqrt(rate / 2);

export function sensorErrorInto(
  values: Float64Array,
  width: number,
  plan: Plan,
  variant: Variant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  const { sensing } = plan.airframe;
  const sigma = noiseSigma(sensing.noiseDensity, plan.airframe.controller.rate);
  const white = whiteNoise(3 * schedule.steps, [...streams, "sensor"]);
  for (let k = 0; k < schedule.steps; k++) {
    for (let a = 0; a < 3; a++) values[k * width + m.NOISE + a] = sigma * white[3 * k + a];
  }
  const planned = plan.conditions[variant.condition];
  if (planned === undefined) throw new RangeError(`no condition ${variant.condition}`);
  const phases = stream(...streams, "vibration");
  for (const { harmonic, atHover } of sensing.vibration) {
    const turns = turnsBySpeed(schedule, harmonic);
    for (let rotor = 0; rotor < plan.airframe.rotors.length; rotor++) {
      const trimmed = variant.trim.speeds[rotor] / schedule.speed[0];
      const atSpeed = trimmed / planned.hover.speeds[rotor];
      for (let a = 0; a < 3; a++) {
        const phase = (phases.next() / 4294967296) * 2 * Math.PI + (a === 1 ? 0.5 * Math.PI : 0);
        vibrationInto(values, width, m.NOISE + a, schedule, turns(trimmed), atHover * atSpeed * atSpeed, phase);
      }
    }
  }
}

/** Noise drawn last: variants of one script and condition hear the same, whatever their throttle, rate and axis. */
const drawn = new Map<string, Float64Array>();
const ROOM = 2 ** 21; // numbers: all conditions of a script in turn
let held = 0;

function whiteNoise(length: number, streams: readonly (string | number)[]): Float64Array {
  const key = JSON.stringify([length, ...streams]);
  const known = drawn.get(key);
  if (known !== undefined) return known;
  const white = new Float64Array(length);
  fillGaussian(white, stream(...streams));
  held += length;
  for (const [oldest, noise] of drawn) {
    if (held <= ROOM) break;
    drawn.delete(oldest);
    held -= noise.length;
  }
  drawn.set(key, white);
  return white;
}

/** sin and cos of the angle turned since the start, one of each per control period. */
interface Turn {
  readonly sine: Float64Array;
  readonly cosine: Float64Array;
}

/** The turn of a rotor at so many times the schedule's speed; rotors of one speed share theirs. */
function turnsBySpeed({ speed, steps, period }: Schedule, harmonic: number): (trimmed: number) => Turn {
  const known = new Map<number, Turn>();
  return (trimmed) => {
    const shared = known.get(trimmed);
    if (shared !== undefined) return shared;
    const turn = { sine: new Float64Array(steps), cosine: new Float64Array(steps) };
    known.set(trimmed, turn);
    let angle = 0;
    for (let k = 0; k < steps; k++) {
      turn.sine[k] = sin(angle);
      turn.cosine[k] = cos(angle);
      angle += harmonic * trimmed * speed[k] * period;
    }
    return turn;
  };
}

/** Adds amplitude speed^2 sin(turn + phase) at `place` of each control period. */
function vibrationInto(
  values: Float64Array,
  width: number,
  place: number,
  { speed, steps }: Schedule,
  { sine, cosine }: Turn,
  amplitude: number,
  phase: number,
): void {
  const [bySine, byCosine] = [amplitude * cos(phase), amplitude * sin(phase)];
  for (let k = 0; k < steps; k++) {
    const now = k * width + place;
    values[now] = values[now] + speed[k] * speed[k] * (bySine * sine[k] + byCosine * cosine[k]);
  }
}
