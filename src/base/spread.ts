// How far a number of a model may be off, as it is written beside it: "75 mohm ± 20 %", "4.2e-6 kg m^2 ± 0.6e-6 kg m^2",
// "0.156 ± 5 %", "60 to 95 mohm". About 95 of 100 such craft lie within it: expanded uncertainty with coverage factor 2
// (JCGM 100:2008, 6.2).
import { type Reading, readQuantity } from "./quantity.js";
import { KINDS, type Kind } from "./units.js";

/** Standard deviations in what is written behind ±. */
export const COVERAGE = 2;

/** How the numbers of such craft are distributed about the one that is written, which is their median. */
export type SpreadLaw = "normal" | "log-normal" | "uniform";

export interface SpreadSize {
  readonly law: SpreadLaw;
  /** Normal: two standard deviations; uniform: half the width; both as the number itself. Log-normal: a share of the number. */
  readonly size: number;
}

/** One number of a model with its spread, SI. */
export interface Spread extends SpreadSize {
  /** As the file spells it: "motor.resistance", "frame.parts[6].at[0]". */
  readonly key: string;
  readonly nominal: number;
  /** The range the key may lie in. */
  readonly least: number;
  readonly most: number;
}

/** A number with its spread; `spread` is null where the number is taken as exact. */
export interface Measured {
  readonly value: number;
  readonly spread: SpreadSize | null;
}

const PLUS_MINUS = /\s*(?:±|\+\/-)\s*/;
const FROM_TO = /^(.+?)\s+to\s+(.+)$/i;
const PERCENT = /^(\d+\.?\d*|\.\d+)\s*%$/;
const NUMBER_ALONE = /^[+\u2212-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;
const FIRST_NUMBER = /^[+\u2212-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?\s*/i;

/** A relative spread above this is log-normal where the number cannot be negative. */
const LOG_NORMAL_ABOVE = 0.2;
const LARGEST_SHARE = 10;

/** Whether a written value carries a spread. */
export const carriesSpread = (written: unknown): written is string =>
  typeof written === "string" && (PLUS_MINUS.test(written) || FROM_TO.test(written.trim()));

/** A quantity with or without a spread, within its range. SI. */
export function readMeasuredQuantity(
  written: unknown,
  kind: Kind,
  range: { readonly least: number; readonly most: number; readonly words: string },
  preferred?: string,
): Reading<Measured> {
  // A percentage beside a share is in the share's own unit: 16 % ± 5 % is 11 to 21 %.
  const relative = !Object.hasOwn(KINDS[kind].units, "%");
  return readMeasured(written, range, relative, (text) => readQuantity(text, kind, preferred));
}

/** A number without a unit, with or without a spread, within its range. */
export function readMeasuredNumber(
  written: unknown,
  range: { readonly least: number; readonly most: number; readonly words: string },
): Reading<Measured> {
  const expected = `expected a number from ${range.least} to ${range.most}`;
  const read = (text: unknown): Reading<number> => {
    if (typeof text === "number") return { value: text };
    const plain = typeof text === "string" ? text.trim().replace(/^\u2212/, "-") : "";
    return NUMBER_ALONE.test(plain)
      ? { value: Number(plain) }
      : { fault: `"${String(text)}" is not a number, ${expected}` };
  };
  return readMeasured(written, range, true, read);
}

function readMeasured(
  written: unknown,
  { least, most, words }: { readonly least: number; readonly most: number; readonly words: string },
  relative: boolean,
  read: (text: unknown) => Reading<number>,
): Reading<Measured> {
  const within = (value: number, text: unknown): string | null =>
    value >= least && value <= most ? null : `${String(text).trim()} is out of range, expected ${words}`;
  if (!carriesSpread(written)) {
    const reading = read(written);
    if ("fault" in reading) return reading;
    const fault = within(reading.value, written);
    return fault === null ? { value: { value: reading.value, spread: null } } : { fault };
  }
  const text = written.trim();
  const between = PLUS_MINUS.test(text) ? null : FROM_TO.exec(text);
  if (between !== null) return readBetween(between[1] ?? "", between[2] ?? "", read, within);
  const [before = "", after = "", ...more] = text.split(PLUS_MINUS);
  if (more.length > 0 || before === "" || after === "")
    return {
      fault: `"${text}" is not a number with its spread, expected one ± between the two (try "75 mohm ± 20 %")`,
    };
  // "75 ± 5 mohm": the unit stands once, after both
  const unit = after.replace(FIRST_NUMBER, "");
  const inUnit = `${before} ${unit}`;
  const nominal = read(NUMBER_ALONE.test(before) && "value" in read(inUnit) ? inUnit : before);
  if ("fault" in nominal) return nominal;
  const fault = within(nominal.value, before);
  if (fault !== null) return { fault };
  const share = relative ? PERCENT.exec(after) : null;
  const size = share === null ? read(after) : { value: Number(share[1]) / 100 };
  if ("fault" in size) return size;
  const ratio = share === null ? size.value / Math.abs(nominal.value) : size.value;
  if (size.value <= 0) return { fault: `± ${after} is no spread; leave it out where the number is exact` };
  if (share !== null && nominal.value === 0)
    return {
      fault: `a share of 0 is 0; give the spread in the unit of the number (try "± 1 ${unitOfNumber(before)}")`,
    };
  if (nominal.value !== 0 && least >= 0 && ratio > LARGEST_SHARE)
    return { fault: `± ${after} is more than ${LARGEST_SHARE} times the number; expected less` };
  const logNormal = least >= 0 && nominal.value > 0 && ratio > LOG_NORMAL_ABOVE;
  const spread: SpreadSize = logNormal
    ? { law: "log-normal", size: ratio }
    : { law: "normal", size: share === null ? size.value : size.value * Math.abs(nominal.value) };
  return { value: { value: nominal.value, spread } };
}

const unitOfNumber = (text: string): string => text.replace(FIRST_NUMBER, "");

function readBetween(
  from: string,
  to: string,
  read: (text: unknown) => Reading<number>,
  within: (value: number, text: unknown) => string | null,
): Reading<Measured> {
  const unit = unitOfNumber(to);
  const low = read(NUMBER_ALONE.test(from) && unit !== "" ? `${from} ${unit}` : from);
  const high = read(to);
  if ("fault" in low) return low;
  if ("fault" in high) return high;
  const fault = within(low.value, from) ?? within(high.value, to);
  if (fault !== null) return { fault };
  if (low.value >= high.value) return { fault: `${from} to ${to} does not rise; expected the smaller number first` };
  const value = 0.5 * (low.value + high.value);
  return { value: { value, spread: { law: "uniform", size: 0.5 * (high.value - low.value) } } };
}
