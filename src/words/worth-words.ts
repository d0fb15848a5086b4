// What knowing a number exactly would be worth, in words.
import type { Worth } from "../map/confidence-format.js";
import { canBeMeasured, keyBeside, numberTitle } from "./number-words.js";
import { withUnit } from "./numbers.js";

/** Numbers whose knowledge is worth more than chance alone gives, most first. */
export const worthKnowing = (worth: readonly Worth[]): readonly Worth[] =>
  worth.filter(({ gain, error }) => gain > error);

/** The number to measure first; null where no difference is seen. */
export const firstToMeasure = (worth: readonly Worth[]): Worth | null =>
  worthKnowing(worth).find(({ key }) => canBeMeasured(key)) ?? null;

/** "motor resistance (motor.resistance): 4.29 % more safe ground, give or take 0.87 %"; a sentence where there is none. */
export function firstWords(worth: readonly Worth[]): string {
  const first = firstToMeasure(worth);
  if (first === null)
    return "No single number stands out: knowing one of them alone would add no safe ground that is seen.";
  const key = keyBeside(first.key);
  const named = `${numberTitle(first.key)}${key === "" ? "" : ` (${key})`}`;
  return `Measure first: ${named}. Known exactly, it would add safe ground: ${gainWords(first)} of what is safe as written.`;
}

/** "4.29 % (± 0.87 %)". */
const gainWords = ({ gain, error }: Worth): string => `${twoDigits(gain)} (\u00b1\u00a0${twoDigits(error)})`;

const twoDigits = (value: number): string => withUnit(Number(value.toPrecision(2)), "%");
