// Gusts as inflow: a vertical velocity through every rotor and its gradient across the frame, which acts like a
// body rate. One-minus-cosine pulse (14 CFR 25.341 shape) and Dryden turbulence (MIL-F-8785C, from memory for the rotary part).
import { cos, exp, pow, sin } from "../base/elementary.js";
import { fillGaussian, stream } from "../base/random.js";
import type { TrialVariant } from "../plan/plan.js";
import type { GustPulse, GustTurbulence } from "../sweep/sweep.js";
import * as m from "./memory.js";
import type { Schedule } from "./schedule.js";

export function gustsInto(
  values: Float64Array,
  width: number,
  variant: TrialVariant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  // No gradient of a vertical gust turns a craft about the vertical.
  const slope = { roll: m.GUST_ROLL, pitch: m.GUST_PITCH, yaw: null }[variant.axis];
  variant.script.gusts.forEach((gust, index) => {
    const air = gust.kind === "pulse" ? pulse(gust, schedule) : turbulence(gust, schedule, [...streams, "gust", index]);
    for (let k = 0; k < schedule.steps; k++) {
      const now = k * width;
      // An upward gust comes through the disc from below: less inflow, so the climb is lowered.
      values[now + m.CLIMB] = values[now + m.CLIMB] - air.vertical[k];
      if (slope !== null) values[now + slope] = values[now + slope] + air.rotary[k];
    }
  });
}

interface Air {
  readonly vertical: Float64Array; // m/s, upward
  readonly rotary: Float64Array; // rad/s: gradient of the inflow across the frame, along the axis under test
}

/** w = peak/2 (1 - cos(2 pi s / length)), s = speed (t - at); the gradient is its slope along the sweep. */
export function pulse(gust: GustPulse, schedule: Pick<Schedule, "steps" | "period">): Air {
  const vertical = new Float64Array(schedule.steps);
  const rotary = new Float64Array(schedule.steps);
  for (let k = 0; k < schedule.steps; k++) {
    const s = gust.speed * (k * schedule.period - gust.at);
    if (s < 0 || s > gust.length) continue;
    const angle = (2 * Math.PI * s) / gust.length;
    vertical[k] = 0.5 * gust.peak * (1 - cos(angle));
    rotary[k] = ((Math.PI * gust.peak) / gust.length) * sin(angle);
  }
  return { vertical, rotary };
}

const SPAN = 0.25; // m, over which the rotary gust is averaged: a small craft's width

/**
 * Dryden vertical gust and its gradient across the span. The transverse form (1 + sqrt3 T s)/(1 + T s)^2,
 * T = scale / speed, is stepped exactly, so its variance is rms^2 at any period.
 */
export function turbulence(
  gust: GustTurbulence,
  schedule: Pick<Schedule, "steps" | "period">,
  streams: readonly (string | number)[],
): Air {
  const { steps, period } = schedule;
  const white = new Float64Array(3 * steps);
  fillGaussian(white, stream(...streams));
  const vertical = new Float64Array(steps);
  const rotary = new Float64Array(steps);
  const { keep, feed, first, cross, second } = twoPoles((gust.speed * period) / gust.scale);
  const keepSpan = exp((-Math.PI * gust.speed * period) / (4 * SPAN));
  const rotaryGain = rotaryRms(gust) * Math.sqrt(1 - keepSpan * keepSpan);
  let x1 = white[0];
  let x2 = 0.5 * x1;
  let p = 0;
  for (let k = 0; k < steps; k++) {
    x2 = keep * x2 + feed * x1 + cross * white[3 * k] + second * white[3 * k + 1];
    x1 = keep * x1 + first * white[3 * k];
    p = keepSpan * p + rotaryGain * white[3 * k + 2];
    const t = k * period;
    if (t < gust.from || t > gust.to) continue;
    vertical[k] = gust.rms * Math.SQRT1_2 * (Math.sqrt(3) * x1 + (1 - Math.sqrt(3)) * x2);
    rotary[k] = p;
  }
  return { vertical, rotary };
}

/** Exact step of two equal poles in series driven by noise that gives the first unit variance. */
function twoPoles(step: number) {
  const keep = exp(-step);
  const square = keep * keep;
  const first = Math.sqrt(1 - square);
  const cross = (1 - square * (1 + 2 * step)) / 2 / first;
  const variance = (1 - square * (1 + 2 * step + 2 * step * step)) / 2;
  return { keep, feed: step * keep, first, cross, second: Math.sqrt(Math.max(0, variance - cross * cross)) };
}

/** Rms of the rotary gust, rad/s: the spectrum 0.8 rms^2/L (pi L/4b)^(1/3) / (1 + (4b W/pi)^2) integrated. */
export const rotaryRms = ({ rms, scale }: GustTurbulence): number =>
  rms * Math.sqrt(((0.8 / scale) * pow((Math.PI * scale) / (4 * SPAN), 1 / 3) * Math.PI * Math.PI) / (8 * SPAN));
