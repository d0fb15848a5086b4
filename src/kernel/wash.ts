// Prop wash: in descent each rotor meets its own wake. Mean thrust is lost and bursts come every 20 to 50
// revolutions, worst at 1.2 to 1.3 times the induced velocity (Stack, Caradonna & Savas 2004; Veismann,
// Dougherty & Gharib 2023). The bump's shape between those facts is ours.

import type { Wash } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { exp } from "../base/elementary.js";
import { stream } from "../base/random.js";
import type { Variant } from "../plan/plan.js";
import * as m from "./memory.js";
import { multisineOf, noisePeriod } from "./multisine.js";
import type { Schedule } from "./schedule.js";
import { SLOW_LINES, usualDraws } from "./usual-wash.js";

const WORST = 1.25;
const FROM = 0.3;
const TO = 2;

/** Share of the worst case at a descent ratio x = descent / vh: 0 outside 0.3 to 2, 1 at 1.25, smooth between. */
export function washShare(ratio: number): number {
  if (ratio <= FROM || ratio >= TO) return 0;
  const place = ratio < WORST ? (ratio - FROM) / (WORST - FROM) : (TO - ratio) / (TO - WORST);
  return place * place * (3 - 2 * place);
}

export function washInto(
  values: Float64Array,
  width: number,
  { airframe: { wash, rotors }, arms }: Craft,
  { script }: Variant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  if (schedule.descent.every((speed) => speed <= 0)) return;
  const share = schedule.descent.map((speed, k) => washShare(speed / schedule.inducedVelocity[k]));
  const length = noisePeriod(script, schedule.period);
  const through = throughPoles(schedule, wash, length);
  const usual = usualDraws({ schedule, window: script.window, share, length, through });
  const keys = [...streams, "wash"];
  const bursts = (white: Float64Array) => through(white, new Float64Array(schedule.steps));
  const common = bursts(multisineOf(length, keys));
  const modes = modesOf(arms);
  const ofModes = modes.map((_, mode) => {
    // What turns the craft about an axis decides how it wobbles there.
    if (mode >= TURNING) return bursts(multisineOf(length, [...keys, mode]));
    const slow = usual(stream(...keys, mode, "slow"));
    const fast = multisineOf(length, [...keys, mode], SLOW_LINES);
    for (let k = 0; k < length; k++) slow[k] += fast[k];
    return bursts(slow);
  });
  const [byCommon, byOwn] = [Math.sqrt(wash.correlation), Math.sqrt(1 - wash.correlation)];
  for (let k = 0; k < schedule.steps; k++) {
    for (let i = 0; i < rotors.length; i++) {
      let own = 0;
      for (let at = 0; at < modes.length; at++) own += modes[at][i] * ofModes[at][k];
      const thrust = 1 + share[k] * (wash.rms * (byCommon * common[k] + byOwn * own) - wash.loss);
      values[k * width + m.THRUST_SHARE + i] = Math.max(0, thrust);
    }
  }
}

/** The first modes: those that roll and pitch the craft. */
const TURNING = 2;

/**
 * Unit vectors over the rotors, each square to all others: first what rolls the craft, then what pitches it, then the rest.
 * Independent noise along each of them is independent noise of each rotor; this way that about an axis is of one piece.
 */
export function modesOf(arms: Craft["arms"]): number[][] {
  const wanted = [arms.map(([, y]) => y), arms.map(([x]) => x), ...arms.map((_, i) => arms.map((__, j) => +(i === j)))];
  const modes: number[][] = [];
  for (const vector of wanted) {
    const size = norm(vector);
    const rest = modes.reduce((left, mode) => {
      const along = dot(left, mode);
      return left.map((value, i) => value - along * mode[i]);
    }, vector);
    const length = norm(rest);
    if (modes.length < arms.length && length > 1e-6 * size) modes.push(rest.map((value) => value / length));
  }
  return modes;
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * b[i], 0);
const norm = (a: readonly number[]): number => Math.sqrt(dot(a, a));

/** White noise, one period of it, to bursts of unit variance, over as many control periods as `out` has. */
export type Through = (white: Float64Array, out: Float64Array) => Float64Array;

/** Two poles at rotor speed / revolutions, over noise of so many control periods; exact for the first pole at any step. */
export function throughPoles(
  { speed, period }: Pick<Schedule, "speed" | "period">,
  { revolutions }: Pick<Wash, "revolutions">,
  length: number,
): Through {
  const keep = speed.map((w) => exp((-w * period) / revolutions));
  const feed = keep.map((kept) => Math.sqrt(1 - kept * kept));
  // Stationary deviation of the second pole: sqrt(1 + keep^2) / (1 + keep), from its Lyapunov equation.
  const scale = keep.map((kept) => (1 + kept) / Math.sqrt(1 + kept * kept));
  return (white, out) => {
    let first = 0;
    let second = 0;
    const step = (k: number, push: number) => {
      first = keep[k] * first + feed[k] * push;
      second = keep[k] * second + (1 - keep[k]) * first;
    };
    // A period beforehand, at the speed the flight begins with: bursts have always been there.
    for (let k = 0; k < length; k++) step(0, white[k]);
    for (let k = 0, at = 0; k < out.length; k++) {
      step(k, white[at]);
      out[k] = second * scale[k];
      if (++at === length) at = 0;
    }
    return out;
  };
}
