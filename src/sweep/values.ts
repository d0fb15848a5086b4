// What a script's timelines may say at an instant: a duty or the swept level, a rate or a share of the
// swept one, a speed or a multiple of the hover induced velocity.
import type { z } from "zod";
import { describeValue, field } from "../base/fields.js";
import { type Reading, readQuantity } from "../base/quantity.js";
import type { Kind } from "../base/units.js";
import type { RateValue, SpeedValue, ThrottleValue } from "./sweep.js";

/** "80 %", level, level + 20 %, level - 10 %, idle. */
export const throttleValue = (): z.ZodType<ThrottleValue> =>
  field(readThrottle, { type: "string", description: "a duty (80 %), level, level + 20 %, or idle" });

/** "200 deg/s", rate, 0.5 rate, -1 rate, none. */
export const rateValue = (): z.ZodType<RateValue> =>
  field(readRate, { type: "string", description: "an angular rate (200 deg/s), rate, 0.5 rate, -1 rate, or none" });

/** "8 m/s", "1.25 vh", none. */
export const speedValue = (): z.ZodType<SpeedValue> =>
  field(readSpeed, { type: "string", description: "a speed (8 m/s), a multiple of vh (1.25 vh), or none" });

function readThrottle(written: unknown): Reading<ThrottleValue> {
  if (written === "idle") return { value: { kind: "idle" } };
  if (written === "level") return { value: { kind: "level", plus: 0 } };
  const [, sign, amount] = matched(LEVEL, written);
  if (amount !== undefined) {
    const plus = within(amount, "share", 0, 1, `0 % to 100 %`);
    return mapped(plus, (value) => ({ kind: "level", plus: sign === "-" ? -value : value }));
  }
  if (isWord(written))
    return { fault: `expected a duty, level, level + 20 % or idle, found ${describeValue(written)}` };
  return mapped(within(written, "share", 0, 1, "0 % to 100 %"), (duty) => ({ kind: "duty", duty }));
}

function readRate(written: unknown): Reading<RateValue> {
  if (written === "none") return { value: { kind: "rate", rate: 0 } };
  const [found, factor] = matched(RATE, written);
  if (found !== undefined) return bounded(factor === "" ? 1 : Number(factor), written);
  if (isWord(written))
    return { fault: `expected an angular rate, rate, -1 rate or none, found ${describeValue(written)}` };
  return mapped(within(written, "rate", -FASTEST, FASTEST, "-3000 deg/s to 3000 deg/s"), (rate) => ({
    kind: "rate",
    rate,
  }));
}

function readSpeed(written: unknown): Reading<SpeedValue> {
  if (written === "none") return { value: { kind: "speed", speed: 0 } };
  if (isWord(written)) return { fault: `expected a speed, a multiple of vh or none, found ${describeValue(written)}` };
  if (typeof written === "string" && /vh\s*$/.test(written)) {
    return mapped(within(written, "wakeRatio", 0, 3, "0 vh to 3 vh"), (ratio) => ({ kind: "ratio", ratio }));
  }
  return mapped(within(written, "speed", 0, 60, "0 m/s to 60 m/s"), (speed) => ({ kind: "speed", speed }));
}

const LEVEL = /^\s*level\s*([+-])\s*(.+)$/;
const RATE = /^\s*([+-]?\d*\.?\d*)\s*rate\s*$/;
const FASTEST = (3000 * Math.PI) / 180; // rad/s

const LONGEST = 100; // characters; the search takes quadratic time

const matched = (pattern: RegExp, written: unknown): readonly string[] =>
  typeof written === "string" && written.length <= LONGEST ? (pattern.exec(written) ?? []) : [];

const isWord = (written: unknown): boolean => typeof written === "string" && /^\s*[a-z]/i.test(written);

function bounded(share: number, written: unknown): Reading<RateValue> {
  if (Math.abs(share) <= 2) return { value: { kind: "share", share } };
  return { fault: `${String(written).trim()} is out of range, expected -2 rate to 2 rate` };
}

function within(written: unknown, kind: Kind, least: number, most: number, range: string): Reading<number> {
  const reading = readQuantity(written, kind);
  if ("fault" in reading || (reading.value >= least && reading.value <= most)) return reading;
  return { fault: `${String(written).trim()} is out of range, expected ${range}` };
}

const mapped = <A, B>(reading: Reading<A>, change: (value: A) => B): Reading<B> =>
  "fault" in reading ? reading : { value: change(reading.value) };
