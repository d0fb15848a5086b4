// A number with its spread as a model file writes it, in the unit and form it stood in before.

import { valueAtScore } from "../airframe/spread-values.js";
import { exp, ln } from "../base/elementary.js";
import type { Spread } from "../base/spread.js";

const PARTS =
  /^\s*([+\u2212-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(.*?)\s*(?:±|\+\/-)\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(.*?)\s*$/i;
const FROM_TO =
  /^\s*([+\u2212-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(.*?)\s+to\s+([+\u2212-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(.*?)\s*$/i;

/** Mean and standard deviation of a number's score. */
export interface Score {
  readonly mean: number;
  readonly deviation: number;
}

/**
 * The number at its new median with its new spread. `size` is as `Spread` has it: what the law of before becomes where the
 * score is narrower; of one that could lie anywhere between two values, two standard deviations as if it were normal.
 */
export function fittedSpread(spread: Spread, { mean, deviation }: Score): Pick<Spread, "nominal" | "law" | "size"> {
  const nominal = valueAtScore(spread, mean);
  if (spread.law === "normal") return { nominal, law: "normal", size: spread.size * deviation };
  if (spread.law === "log-normal")
    return { nominal, law: "log-normal", size: exp(ln(1 + spread.size) * deviation) - 1 };
  const [low, high] = [mean - 2 * deviation, mean + 2 * deviation].map((score) => valueAtScore(spread, score)) as [
    number,
    number,
  ];
  return { nominal, law: "normal", size: 0.5 * (high - low) };
}

/** The text for it, in the unit of `before`; null where `before` is not the text of a number with a spread. */
export function writtenSpread(
  before: string,
  spread: Spread,
  after: Pick<Spread, "nominal" | "law" | "size">,
): string | null {
  const [, number, unit, size, sizeUnit] = PARTS.exec(before) ?? [];
  const [, low, lowUnit, high, highUnit] = number === undefined ? (FROM_TO.exec(before) ?? []) : [];
  if (number !== undefined && unit !== undefined && size !== undefined && sizeUnit !== undefined) {
    const relative = sizeUnit === "%" && unit !== "%";
    const name = unit === "" && !relative ? sizeUnit : unit;
    const written = plain(number);
    const per = written === 0 ? spread.size / Number(size) : spread.nominal / written;
    return withSpread(after, per, name, relative || after.law === "log-normal");
  }
  if (low === undefined || high === undefined) return null;
  const name = highUnit ?? lowUnit ?? "";
  const middle = lowUnit === "" || lowUnit === highUnit ? 0.5 * (plain(low) + plain(high)) : Number.NaN;
  if (!Number.isFinite(middle)) return null;
  return withSpread(after, spread.nominal / middle, name, false);
}

/** `per`: SI value of one unit. */
function withSpread(
  { nominal, law, size }: Pick<Spread, "nominal" | "law" | "size">,
  per: number,
  unit: string,
  relative: boolean,
): string {
  const share = law === "log-normal" ? size : size / Math.abs(nominal);
  const named = unit === "" ? "" : ` ${unit}`;
  const spread =
    relative && nominal !== 0 && unit !== "%"
      ? `${rounded(100 * share, 3)} %`
      : `${rounded((law === "log-normal" ? share * nominal : size) / per, 3)}${named}`;
  return `${rounded(nominal / per, 4)}${named} ± ${spread}`;
}

const plain = (text: string): number => Number(text.replace(/^\u2212/, "-"));

const rounded = (value: number, digits: number): string => String(Number(value.toPrecision(digits)) + 0);
