// Prop wash: in descent each rotor meets its own wake. What each rotor loses of its thrust, control period by control period.

import type { Wash } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { washShare } from "../airframe/wash.js";
import { stream } from "../base/random.js";
import type { TrialVariant } from "../plan/plan.js";
import { throughPoles } from "./bursts.js";
import { multisineOf, noisePeriod } from "./multisine.js";
import { SHARES } from "./noise-layout.js";
import type { Schedule } from "./schedule.js";
import { addScaled, SLOW_LINES, type UsualDraws, usualDraws, type WashInput } from "./usual-wash.js";

/** What chance decides of a wash: bursts of unit variance, common to all rotors and along each mode of them. */
export interface Bursts {
  readonly common: Float64Array;
  readonly ofModes: readonly Float64Array[];
}

const washShares = (schedule: Schedule): Float64Array =>
  schedule.descent.map((speed, k) => washShare(speed / schedule.inducedVelocity[k]));

/** Null where the script descends nowhere. */
export function burstsOf(
  craft: Craft,
  variant: TrialVariant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): Bursts | null {
  const { arms, airframe } = craft;
  const { script, trim } = variant;
  if (schedule.descent.every((speed) => speed <= 0)) return null;
  const share = washShares(schedule);
  const length = noisePeriod(script, schedule.period);
  const through = throughPoles(schedule, airframe.wash, length);
  const usual = usualOf(craft, variant, () => ({ schedule, window: script.window, share, length, through }));
  const keys = [...streams, "wash"];
  const bursts = (white: Float64Array) => through(white, new Float64Array(schedule.steps));
  const usually = (draw: UsualDraws["turning"], of: readonly (string | number)[]) => {
    const slow = draw(stream(...of, "slow"));
    const fast = multisineOf(length, of, SLOW_LINES);
    return bursts(fast.map((value, k) => value + slow[k]));
  };
  const modes = modesOf(arms, trim.speeds);
  const turning = Array.from({ length: TURNING }, (_, mode) => usually(usual.turning, [...keys, mode]));
  const lifting = usual.lifting(turning);
  const common = usually(lifting, keys);
  const ofModes = modes.map((_, mode) => {
    if (mode < TURNING) return turning[mode];
    return mode === TURNING ? usually(lifting, [...keys, mode]) : bursts(multisineOf(length, [...keys, mode]));
  });
  return { common, ofModes };
}

/** What no seed changes, of the variant used last: a tune is simulated under one seed after another. */
let latest: { craft: Craft; variant: TrialVariant; usual: UsualDraws } | null = null;

function usualOf(craft: Craft, variant: TrialVariant, input: () => WashInput): UsualDraws {
  if (latest?.craft !== craft || latest.variant !== variant) latest = { craft, variant, usual: usualDraws(input()) };
  return latest.usual;
}

/** Writes what each rotor's thrust becomes in its wake, with these bursts. */
export function washInto(
  values: Float64Array,
  width: number,
  { airframe: { wash, rotors }, arms }: Craft,
  { trim }: TrialVariant,
  schedule: Schedule,
  { common, ofModes }: Bursts,
): void {
  const share = washShares(schedule);
  const modes = modesOf(arms, trim.speeds);
  const [byCommon, byOwn] = [Math.sqrt(wash.correlation), Math.sqrt(1 - wash.correlation)];
  for (let i = 0; i < rotors.length; i++) {
    const own = new Float64Array(schedule.steps);
    for (const [at, mode] of modes.entries()) addScaled(own, mode[i], ofModes[at]);
    thrustInto(values, width, SHARES + i, { share, common, own, byCommon, byOwn, ...wash });
  }
}

/** What a rotor loses, control period by control period. */
interface Loss extends Pick<Wash, "rms" | "loss"> {
  readonly share: Float64Array;
  readonly common: Float64Array;
  readonly own: Float64Array;
  readonly byCommon: number;
  readonly byOwn: number;
}

function thrustInto(
  values: Float64Array,
  width: number,
  column: number,
  { share, common, own, byCommon, byOwn, rms, loss }: Loss,
): void {
  for (let k = 0; k < share.length; k++) {
    const thrust = 1 + share[k] * (rms * (byCommon * common[k] + byOwn * own[k]) - loss);
    values[k * width + column] = Math.max(0, thrust);
  }
}

/** The first modes: those that roll and pitch the craft. The next one lifts it. */
const TURNING = 2;

/**
 * Unit vectors over the rotors, each square to all others: what rolls the craft, what pitches it, what lifts it, the rest,
 * at the thrusts these rotor speeds give.
 * Independent noise along each of them is independent noise of each rotor; this way that about an axis is of one piece.
 */
export function modesOf(arms: Craft["arms"], speeds: readonly number[]): number[][] {
  const along = (of: (arm: Craft["arms"][number]) => number) => arms.map((arm, i) => of(arm) * speeds[i] * speeds[i]);
  const each = arms.map((_, i) => arms.map((__, j) => +(i === j)));
  const candidates = [along(([, y]) => y), along(([x]) => x), along(() => 1), ...each];
  const modes: number[][] = [];
  for (const vector of candidates) {
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
