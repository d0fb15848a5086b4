// What a script commands, control period by control period, as the controller takes it: throttle, rates behind their low-pass,
// what is fed forward of them, and the factors of the gains.
import type { Airframe } from "../airframe/airframe.js";
import { filtered, stagesOf } from "../airframe/filter.js";
import { gainFactorsAt } from "../airframe/gain-schedule.js";
import { numberAt } from "../base/at.js";
import type { TestedAxis } from "../sweep/sweep.js";
import * as m from "./memory.js";
import type { Schedule } from "./schedule.js";

const AXES = ["roll", "pitch", "yaw"] as const;

type Rates = Readonly<Record<(typeof AXES)[number], Float64Array>>;

/** Rates of each axis as a script commands them, rad/s. */
export function ratesAsked({ steps, command, yaw }: Schedule, tested: TestedAxis): Rates {
  const none = new Float64Array(steps);
  const onYaw = tested === "yaw" ? yaw.map((rate, k) => rate + numberAt(command, k)) : yaw;
  return { roll: none, pitch: none, yaw: onYaw, ...(tested === "yaw" ? {} : { [tested]: command }) };
}

export function commandsInto(
  values: Float64Array,
  shape: m.Shape,
  { throttle }: Schedule,
  asked: Rates,
  airframe: Airframe,
): void {
  const width = m.driveWidth(shape);
  const stages = stagesOf(airframe.controller.commandLowPass ?? [], airframe);
  columnInto(values, width, m.THROTTLE, throttle);
  for (const [a, axis] of AXES.entries()) {
    // Nothing is commanded before a trial: its first value is a step.
    const rates = filtered(behindZero(asked[axis]), stages).subarray(1);
    columnInto(values, width, m.COMMAND + a, rates);
    if (shape.extended === 1) feedForwardInto(values, shape, rates, airframe, a);
  }
}

/** Sets one column of a drive. */
export function columnInto(values: Float64Array, width: number, column: number, of: Float64Array): void {
  for (let k = 0, now = column; k < of.length; k++, now += width) values[now] = of[k];
}

/** Of one axis: the slope of a rate is its change since the period before. */
function feedForwardInto(
  values: Float64Array,
  shape: m.Shape,
  rates: Float64Array,
  { controller }: Airframe,
  a: number,
): void {
  const given = controller.feedForward?.[AXES[a] as (typeof AXES)[number]];
  const [width, at] = [m.driveWidth(shape), m.extensionAt(shape) + m.FEED_FORWARD + a];
  for (let now = at, k = 0; now < values.length; now += width, k++) {
    if (given === undefined) values[now] = -0;
    else {
      const change = rates[k] - (k === 0 ? 0 : rates[k - 1]);
      values[now] = given.rate * rates[k] + given.slope * controller.rate * change;
    }
  }
}

/** Sets what the gains are multiplied by at the throttle that the script commands. */
export function factorsInto(
  values: Float64Array,
  shape: m.Shape,
  { steps, throttle }: Schedule,
  airframe: Airframe,
): void {
  const [width, at] = [m.driveWidth(shape), m.extensionAt(shape) + m.FACTORS];
  for (let k = 0; k < steps; k++) {
    const { p, i, d } = gainFactorsAt(airframe, throttle[k]);
    values.set([p, i, d], k * width + at);
  }
}

/** The same behind a 0. */
function behindZero(values: Float64Array): Float64Array {
  const out = new Float64Array(values.length + 1);
  out.set(values, 1);
  return out;
}
