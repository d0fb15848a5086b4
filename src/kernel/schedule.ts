// A script's timelines sampled once per control period for one variant, with the rotor speed and the wake that
// the throttle schedule alone would give: the trim schedule that shapes noise and wash.

import type { Craft } from "../airframe/craft.js";
import { idleCommand } from "../airframe/duty.js";
import { speedTimeConstant } from "../airframe/motor.js";
import { levelAt } from "../airframe/powered.js";
import { hoverInducedVelocity } from "../airframe/rotor.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import type { RateValue, SpeedValue, ThrottleValue, Timeline } from "../sweep/sweep.js";

export interface Schedule {
  readonly steps: number;
  readonly period: number; // s
  readonly throttle: Float64Array; // duty
  readonly command: Float64Array; // rad/s, axis under test
  readonly yaw: Float64Array; // rad/s
  readonly climb: Float64Array; // m/s
  readonly descent: Float64Array; // m/s
  readonly speed: Float64Array; // rad/s, mean rotor speed of the throttle alone
  readonly inducedVelocity: Float64Array; // m/s, vh at that speed
  readonly restHeat: Float64Array; // A^2, all rotors
}

/** Control periods of one trial. */
export const stepsOf = ({ airframe }: Pick<TrialPlan, "airframe">, { script }: Pick<TrialVariant, "script">): number =>
  Math.round(script.duration * airframe.controller.rate);

/** Of the variant asked for last: its noise, its drive and its noise under other seeds need the same one after the other. */
let latest: { readonly craft: Craft; readonly variant: TrialVariant; readonly schedule: Schedule } | null = null;

/** The schedule of a variant; nobody writes into it. */
export function scheduleOf(plan: TrialPlan, variant: TrialVariant): Schedule {
  const craft = plan.conditions[variant.condition]?.craft;
  if (craft === undefined) throw new RangeError(`no condition ${variant.condition}`);
  if (latest?.craft !== craft || latest.variant !== variant)
    latest = { craft, variant, schedule: sampledSchedule(plan, variant) };
  return latest.schedule;
}

function sampledSchedule(plan: TrialPlan, variant: TrialVariant): Schedule {
  const { craft, hover } = plan.conditions[variant.condition];
  const { script } = variant;
  const { rate } = plan.airframe.controller;
  const idle = idleCommand(plan.airframe);
  const period = 1 / rate;
  const steps = stepsOf(plan, variant);
  const hoverThrust = hover.speeds.reduce((sum, w) => sum + craft.thrustStatic * w * w, 0) / hover.speeds.length;
  const vh = hoverInducedVelocity(hoverThrust, plan.airframe.propeller.diameter, craft.density);
  const duty = (v: ThrottleValue) =>
    v.kind === "idle" ? idle : v.kind === "duty" ? v.duty : variant.throttle + v.plus;
  const rateOf = (v: RateValue) => (v.kind === "rate" ? v.rate : v.share * variant.rate);
  const speedOf = (v: SpeedValue) => (v.kind === "speed" ? v.speed : v.ratio * vh);
  const throttle = sample(
    script.throttle,
    (v) => Math.min(1, Math.max(idle, duty(v))),
    steps,
    period,
    variant.throttle,
  );
  return {
    steps,
    period,
    throttle,
    command: sample(script.command, rateOf, steps, period, 0),
    yaw: sample(script.yaw, rateOf, steps, period, 0),
    climb: sample(script.climb, speedOf, steps, period, 0),
    descent: sample(script.descent, speedOf, steps, period, 0),
    ...followThrottle(craft, throttle, period),
  };
}

/** Straight lines between the timeline's points, one sample per control period. */
function sample<V>(line: Timeline<V>, of: (v: V) => number, steps: number, period: number, rest: number): Float64Array {
  const samples = new Float64Array(steps);
  if (line.length === 0) return samples.fill(rest);
  const points = line.map(([time, value]) => [time, of(value)] as const);
  const first = pastPoint(points[0][0], 0, steps, period);
  samples.fill(points[0][1], 0, first);
  for (let from = first, next = 1; from < steps; next++) {
    const [time, value] = points[next - 1];
    const after = points[next];
    const to = after === undefined ? steps : pastPoint(after[0], from, steps, period);
    // Most of a script stays where it is, and a hundred thousand quotients a trial are worth leaving out.
    if (after === undefined || after[1] === value) samples.fill(value, from, to);
    else
      for (let k = from; k < to; k++)
        samples[k] = value + ((after[1] - value) * (k * period - time)) / (after[0] - time);
    from = to;
  }
  return samples;
}

/** The first control period from `from` on that a point lies before, or at. */
function pastPoint(time: number, from: number, steps: number, period: number): number {
  let k = from;
  while (k < steps && !(time <= k * period + 1e-12)) k++;
  return k;
}

const TABLE = 65; // duties between 0 and 1 at which the steady speed is solved

type Level = ReturnType<typeof levelAt>;

/** Solved once for a craft and shared by its variants. */
const levelCache = new WeakMap<Craft, readonly Level[]>();

function levelsOf(craft: Craft): readonly Level[] {
  const levels = levelCache.get(craft) ?? Array.from({ length: TABLE }, (_, i) => levelAt(craft, i / (TABLE - 1)));
  levelCache.set(craft, levels);
  return levels;
}

/** The mean rotor's speed follows the throttle with the motor's own lag; heat and vh follow from it. */
function followThrottle(craft: Craft, throttle: Float64Array, period: number) {
  const { airframe, rotorInertia, torqueStatic } = craft;
  const levels = levelsOf(craft);
  const at = (duty: number, pick: (level: { speed: number; current: number }) => number) => {
    const place = Math.min(TABLE - 2, Math.max(0, Math.floor(duty * (TABLE - 1))));
    const share = duty * (TABLE - 1) - place;
    const [a, b] = [levels[place], levels[place + 1]];
    return a === undefined || b === undefined ? 0 : pick(a) + share * (pick(b) - pick(a));
  };
  const speed = new Float64Array(throttle.length);
  const inducedVelocity = new Float64Array(throttle.length);
  const restHeat = new Float64Array(throttle.length);
  let w = at(throttle[0], (level) => level.speed);
  let steady = false;
  for (let k = 0; k < throttle.length; k++) {
    const duty = throttle[k];
    // A speed that a step no longer changed stays until the throttle moves.
    if (steady && duty === throttle[k - 1]) {
      speed[k] = w;
      inducedVelocity[k] = inducedVelocity[k - 1];
      restHeat[k] = restHeat[k - 1];
      continue;
    }
    const before = w;
    const target = at(duty, (level) => level.speed);
    w += (target - w) * Math.min(1, period / speedTimeConstant(airframe.motor, rotorInertia, torqueStatic, w));
    steady = w === before;
    speed[k] = w;
    inducedVelocity[k] = hoverInducedVelocity(craft.thrustStatic * w * w, airframe.propeller.diameter, craft.density);
    const current = at(duty, (level) => level.current);
    restHeat[k] = craft.arms.length * current * current;
  }
  return { speed, inducedVelocity, restHeat };
}
