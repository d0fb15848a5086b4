// A cause in the craft's terms: what it is, what was changed, and what to do about it.
import { quantityText } from "../base/units.js";
import type { Plan } from "../plan/plan.js";
import { millimetres, twoDigits } from "../sheet/doubt.js";
import type { Sheet } from "../sheet/format.js";
import { centreOffset } from "../sheet/geometry.js";
import { sheetOf } from "../sheet/sheet.js";
import type { Axis } from "../sweep/sweep.js";
import type { MendKey } from "./mends.js";

interface CauseWords {
  readonly cause: string;
  /** "With ..." */
  readonly change: string;
  readonly remedy: string;
}

interface Given {
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly axis: Axis;
  readonly factor: number;
}

export function causeWords(plan: Plan, key: MendKey, axis: Axis, factor: number): CauseWords {
  return WORDS[key]({ plan, axis, factor, sheet: sheetOf(plan.airframe) });
}

const SHARES: Readonly<Record<number, string>> = {
  0.8: "four fifths",
  0.7: "seven tenths",
  0.6: "three fifths",
  0.5: "half",
  0.25: "a quarter",
  0.1: "a tenth",
};
const share = (factor: number): string => SHARES[factor] ?? `${twoDigits(100 * factor)} %`;

function balance({ plan, axis, factor }: Given): CauseWords {
  const [x, y] = centreOffset(plan.airframe);
  const off = axis === "pitch" ? x : y;
  const side = axis === "pitch" ? (off > 0 ? "in front of" : "behind") : off > 0 ? "left of" : "right of";
  const way = axis === "pitch" ? (off > 0 ? "back" : "forward") : off > 0 ? "to the right" : "to the left";
  return {
    cause: `The centre of mass lies ${millimetres(Math.abs(off))} ${side} the rotors' middle: a throttle burst ${axis === "pitch" ? "pitches" : "rolls"} the craft`,
    change: factor === 0 ? "With it in the middle" : `With it ${share(factor)} as far away`,
    remedy: `move the battery ${way}`,
  };
}

/** "The loop is 31 ms late in all, 22 ms of it by the gyro's low-pass 20 Hz, order 2". */
function lateness(sheet: Sheet, key: string): string {
  const own = sheet.delays.filter((delay) => delay.key === key || delay.key.startsWith(`${key}[`));
  const sum = own.reduce((total, { ms }) => total + ms, 0);
  const all = own.some(({ ofDAlone }) => ofDAlone) ? sheet.delaySumMs.d : sheet.delaySumMs.p;
  const titles = own.map(({ title }) => title).join(" and ");
  return `the loop is ${twoDigits(all)} ms late in all, ${twoDigits(sum)} ms of it by ${titles}`;
}

type LateKey = Extract<
  MendKey,
  | `sensing.${string}low_pass${string}`
  | `sensing.${string}notch`
  | "controller.latency"
  | `controller.rate_derivative_${string}`
>;

const late =
  (key: LateKey, remedy: string) =>
  ({ sheet, factor }: Given): CauseWords => ({
    cause: capital(lateness(sheet, key)),
    change: `With ${share(factor)} of that`,
    remedy,
  });

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const WORDS: Readonly<Record<MendKey, (given: Given) => CauseWords>> = {
  grid: () => ({
    cause: "The craft has safe tunes, but the grid misses them",
    change: "Beyond or between its lines",
    remedy: "lay the grid around them",
  }),
  frame: balance,
  conditions: () => ({
    cause: "The payload of a condition is more than the craft can bear",
    change: "Without payload",
    remedy: "carry less of it, or nearer to the rotors' middle",
  }),
  "sensing.low_pass": late("sensing.low_pass", "raise the corner of the gyro's filter"),
  "controller.rate_derivative_filter": late("controller.rate_derivative_filter", "raise the corner of D's filter"),
  "sensing.notch": late("sensing.notch", "narrow the gyro's notches, or leave some out"),
  "controller.rate_derivative_notch": late("controller.rate_derivative_notch", "narrow D's notches, or leave some out"),
  "sensing.low_pass_schedule": late(
    "sensing.low_pass_schedule",
    "raise the corners of the gyro's filter over throttle",
  ),
  "sensing.tracking_notch": late(
    "sensing.tracking_notch",
    "narrow the gyro's notches on the rotors, or leave some out",
  ),
  "controller.rate_derivative_filter_schedule": late(
    "controller.rate_derivative_filter_schedule",
    "raise the corners of D's filter over throttle",
  ),
  "controller.rate_derivative_tracking_notch": late(
    "controller.rate_derivative_tracking_notch",
    "narrow D's notches on the rotors, or leave some out",
  ),
  "controller.latency": late("controller.latency", "use a faster loop or a shorter way to the motors"),
  "sensing.noise": ({ sheet, factor }) => ({
    cause: `The gyro's noise, ${twoDigits(sheet.noise.gyroDegPerSPerRootHz)} deg/s/sqrt(Hz), shakes the motors through D`,
    change: `With ${share(factor)} of it`,
    remedy: "look up the gyro's own figure, mount it softly, or lower D's filter",
  }),
  "sensing.vibration": ({ sheet, factor }) => ({
    cause: `The rotors shake the gyro by up to ${twoDigits(Math.max(...sheet.noise.vibration.map(({ amplitudeDegPerS }) => amplitudeDegPerS)))} deg/s in hover`,
    change: `With ${share(factor)} of it`,
    remedy: "balance the propellers, replace bent ones, mount the gyro softly",
  }),
  wash: ({ sheet, factor }) => ({
    cause: `The rotors' own wake takes ${twoDigits(sheet.wash.lossPercent)} % of the thrust in the worst descent and shakes it by ${twoDigits(sheet.wash.rmsPercent)} % rms`,
    change: `With ${share(factor)} of it`,
    remedy: "hold its size against what the craft does in a descent",
  }),
  "controller.gains": ({ factor, axis }) => ({
    cause: `I of ${axis} is so high that it swings the loop by itself`,
    change: factor === 0 ? "Without it" : `With ${share(factor)} of it`,
    remedy: `lower controller.gains.${axis}.i`,
  }),
  "propeller.inertia": ({ sheet, factor }) => ({
    cause: `The motors are slow: they follow within ${twoDigits(sheet.hover.motorLagMs)} ms in hover`,
    change: `With ${share(factor)} of the rotors' inertia`,
    remedy: "lighter propellers or bells, or stronger motors",
  }),
  "frame.mass": ({ plan, sheet, factor }) => ({
    cause: `The craft is heavy: ${quantityText(plan.airframe.mass, "mass", "g")} hover at ${twoDigits(sheet.hover.throttlePercent)} % throttle, and full throttle lifts ${twoDigits(sheet.fullThrottle.thrustToWeight)} times that`,
    change: `With ${share(factor)} of its weight and inertia`,
    remedy: "take weight off, the outermost first, or fit stronger motors",
  }),
};
