// Round places on an axis, linear or of ratios.
import { ln } from "../base/elementary.js";
import { toThreeDigits } from "../words/numbers.js";

export interface Tick {
  readonly at: number;
  readonly text: string;
}

/** Where a value stands on an axis of ratios: its logarithm. */
export const onRatios = (value: number): number => ln(value) / Math.LN10;

const STEPS = Object.freeze([1, 2, 5]);
const FINER_STEPS = Object.freeze([1, 2, 3, 4, 6, 8]);

/** 1, 2, 5, 10, ... between two values, at their place on an axis of ratios; more of them where the two are near. */
export function ratioTicks(from: number, to: number): Tick[] {
  const ticks: Tick[] = [];
  const steps = to / from < 10 ? FINER_STEPS : STEPS;
  for (let decade = 1e-6; decade <= 1e6; decade *= 10)
    for (const step of steps) {
      const value = Number((step * decade).toPrecision(6));
      if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9))
        ticks.push({ at: onRatios(value), text: toThreeDigits(value) });
    }
  return ticks;
}

/** Round values between two, at most so many. */
export function evenTicks(from: number, to: number, most: number): Tick[] {
  const least = (to - from) / most;
  const decade = 10 ** Math.floor(onRatios(least) + 1e-9);
  const step = [1, 2, 5, 10].map((one) => one * decade).find((one) => one >= least * (1 - 1e-9)) ?? 10 * decade;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => {
    const at = Number(((first + k) * step).toPrecision(12));
    return { at, text: toThreeDigits(at) };
  });
}
