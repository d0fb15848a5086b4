// An estimate in words: as model files write it, "88 mohm ± 9 %", and how far it moved.
import { inUnitOf, type Kind, kindOfUnit, shownUnit } from "../../base/units.js";
import { unitInFiles } from "../../compare/model-keys.js";
import type { Estimated, FittedNumber } from "../../fit/format.js";
import { toThreeDigits } from "../numbers.js";
import { unitLabel } from "../units.js";

interface WrittenUnit {
  readonly kind: Kind;
  readonly unit: string;
}

function writtenUnit({ key, unit, before }: FittedNumber): WrittenUnit | null {
  const own = unit === undefined ? null : kindOfUnit(unit);
  if (unit !== undefined && own !== null) return { kind: own, unit };
  const usual = unitInFiles(key);
  return usual === null ? null : { kind: usual.kind, unit: usual.unit ?? shownUnit(before.middle, usual.kind) };
}

const NO_BREAK = "\u00a0";

/** Three digits; below a thousandth with an exponent, as model files have it: "4.2e-6". */
const digits = (value: number): string =>
  value !== 0 && Math.abs(value) < 1e-3 ? Number(value.toPrecision(3)).toExponential() : toThreeDigits(value);

const twoDigits = (value: number): string => toThreeDigits(Number(value.toPrecision(2)));

/** A spread above this share is a factor up and down, as model files have it. */
const FACTOR_ABOVE = 0.2;

/** How far it may be off, as a share of its middle; null where that says nothing: about zero. */
export function relativeSpread({ low, middle, high }: Estimated): number | null {
  if (middle === 0 || low * high <= 0) return null;
  const even = (high - low) / (2 * Math.abs(middle));
  return even > FACTOR_ABOVE ? Math.sqrt(Math.max(high / low, low / high)) - 1 : even;
}

/** "88 mohm ± 9 %", a place "−3.1 mm ± 1.2 mm", and without a spread "88 mohm". */
export function estimateWords(estimated: Estimated, number: FittedNumber): string {
  const written = writtenUnit(number);
  const inUnit = (value: number) => (written === null ? value : inUnitOf(value, written.kind, written.unit));
  const unit = written === null ? "" : NO_BREAK + unitWords(written.unit);
  const middle = `${digits(inUnit(estimated.middle))}${unit}`;
  if (estimated.high === estimated.low) return middle;
  const share = isPlace(number.key) || written?.kind === "share" ? null : relativeSpread(estimated);
  const half = 0.5 * (inUnit(estimated.high) - inUnit(estimated.low));
  const spread =
    share === null ? `${digits(Number(half.toPrecision(2)))}${unit}` : `${twoDigits(100 * share)}${NO_BREAK}%`;
  return `${middle} \u00b1${NO_BREAK}${spread}`;
}

/** Whether the flights moved the number or its spread: what they say nothing about is left as it was. */
export const isLearnt = ({ before, after }: FittedNumber): boolean =>
  before.low !== after.low || before.middle !== after.middle || before.high !== after.high;

const isPlace = (key: string): boolean => /\.at\[\d\]$|\.centre_of_mass\[\d\]$/.test(key);

/** A unit as a page writes it. */
const unitWords = (unit: string): string => unitLabel(unit).replace("sqrt(Hz)", "\u221aHz");

/** A change against what the model said, in % of it, with the interval that the fit leaves it. */
export interface Change {
  readonly percent: number;
  readonly low: number;
  readonly high: number;
  /** Whether the interval leaves out that nothing changed. */
  readonly seen: boolean;
}

export function changeOf(before: Estimated, after: Estimated): Change {
  const against = (value: number) => 100 * (value / before.middle - 1);
  const [low, high] = [against(after.low), against(after.high)].sort((one, other) => one - other) as [number, number];
  return { percent: against(after.middle), low, high, seen: low > 0 || high < 0 };
}

/** A change as a headline has it: no digit behind the point that nobody can use. */
export const wholePercents = (value: number): string =>
  Math.abs(value) < 2 ? percents(value) : `${Math.round(Math.abs(value))}${NO_BREAK}%`;

/** "12 %", "3.4 %": two digits. */
export const percents = (value: number): string => `${twoDigits(Math.abs(value))}${NO_BREAK}%`;

/** "+9 to +15 %". */
export function changeInterval({ low, high }: Change): string {
  const signed = (value: number) => `${value > 0 ? "+" : ""}${twoDigits(value)}`;
  return `${signed(low)} to ${signed(high)}${NO_BREAK}%`;
}
