// The same manoeuvre commanded more gently, for whoever is to fly it first at a fraction of what a sweep asks.
import { at } from "../base/at.js";
import type { RateValue, Script, SpeedValue, Timeline } from "../sweep/sweep.js";
import { dutyOf } from "./duty.js";
import type { Plan, Variant } from "./plan.js";
import { sharedTrim } from "./shared-trim.js";
import { startThrottle } from "./start-throttle.js";

const RATE_STEP = (10 / 180) * Math.PI; // rad/s: nobody sets a stick closer than 10 deg/s

/**
 * The variant with rates, climb, descent and the throttle's moves off its level times `share` (0 to 1, rates to the nearest 10
 * deg/s); times, noise, bursts and gusts are its own, so that a gentler trial meets the same air. A share of 1 gives it unchanged.
 */
export function milderVariant({ airframe, conditions }: Plan, variant: Variant, share: number): Variant {
  if (share === 1) return variant;
  const { throttle: level, condition } = variant;
  const { idle } = airframe.controller;
  const script = milderScript(variant.script, share, (value) => level + share * (dutyOf(value, level, idle) - level));
  const { craft } = at(conditions, condition);
  return {
    ...variant,
    script,
    rate: milderRate(variant.rate, share),
    trim: sharedTrim(craft, startThrottle(script, level, idle)),
  };
}

function milderScript(script: Script, share: number, duty: (value: Script["throttle"][number][1]) => number): Script {
  const speeds = (line: Timeline<SpeedValue>) =>
    mapped(
      line,
      (value): SpeedValue =>
        value.kind === "speed" ? { ...value, speed: share * value.speed } : { ...value, ratio: share * value.ratio },
    );
  const rates = (line: Timeline<RateValue>) =>
    mapped(
      line,
      (value): RateValue =>
        // A share of the swept rate is gentler by the rate itself.
        value.kind === "rate" ? { ...value, rate: milderRate(value.rate, share) } : value,
    );
  return {
    ...script,
    throttle: mapped(script.throttle, (value) => ({ kind: "duty" as const, duty: duty(value) })),
    command: rates(script.command),
    yaw: rates(script.yaw),
    climb: speeds(script.climb),
    descent: speeds(script.descent),
  };
}

const mapped = <V, W>(line: Timeline<V>, of: (value: V) => W): Timeline<W> =>
  line.map(([time, value]) => [time, of(value)] as const);

/** Of a rate too low for steps of 10 deg/s: the share itself. */
function milderRate(rate: number, share: number): number {
  const stepped = RATE_STEP * Math.round((share * rate) / RATE_STEP);
  return stepped === 0 || Math.abs(stepped) > Math.abs(rate) ? share * rate : stepped;
}
