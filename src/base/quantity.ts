// Reads a quantity of a file: a number and its unit. A message names the units that can be read; it offers a value only
// where that is exactly what was written.
import { decimalText, type Exact, exactly } from "./exact.js";
import { spellingOf } from "./spellings.js";
import { KINDS, type Kind, kindOfUnit } from "./units.js";

/** A written value read: its SI number, or one sentence saying what is wrong with it. */
export type Reading<T> = { readonly value: T } | { readonly fault: string };

const NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(.*)$/i;
const LONGEST = 60; // characters of a quantity

/** SI value of a written quantity of the kind; messages name the unit `preferred` first. */
export function readQuantity(written: unknown, kind: Kind, preferred?: string): Reading<number> {
  const expected = (besides = ""): string => `expected ${KINDS[kind].title} (${unitWords(kind, preferred)}${besides})`;
  if (typeof written === "number") return { fault: `${written} has no unit, ${expected(ownScale(kind))}` };
  if (typeof written !== "string") return { fault: `${nameOf(written)} is not a quantity, ${expected()}` };
  if (written.length > LONGEST) return { fault: `too long for a quantity, ${expected()}` };
  const text = written.trim().replace(/^\u2212/, "-");
  const [, number, rest = ""] = NUMBER.exec(text) ?? [];
  const name = tidy(rest);
  if (number !== undefined && name === "") return { fault: `${number} has no unit, ${expected(ownScale(kind))}` };
  const found = Object.hasOwn(KINDS[kind].units, name) ? KINDS[kind].units[name] : undefined;
  if (number === undefined || found === undefined) return { fault: misread(written.trim(), text, kind, expected()) };
  const value = (Number(number) * found.times) / found.over + found.plus;
  return Number.isFinite(value) ? { value } : { fault: `${number} is not a finite number, ${expected()}` };
}

/** "unit: in, mm or ft". */
function unitWords(kind: Kind, preferred: string | undefined): string {
  const units = Object.keys(KINDS[kind].units);
  const [first, ...others] = preferred === undefined ? units : [preferred, ...units.filter((one) => one !== preferred)];
  const last = others.pop();
  return `unit: ${[first, ...others].join(", ")}${last === undefined ? "" : ` or ${last}`}`;
}

/** A gain without a unit is most likely a controller's own number, which has another scale. */
const ownScale = (kind: Kind): string =>
  kind === "pGain" || kind === "iGain" || kind === "dGain"
    ? "; a controller's own number has another scale, see controller.one_unit"
    : "";

/** Why a text is none of the kind's quantities, with the same quantity as it can be read where that is certain. */
function misread(written: string, text: string, kind: Kind, expected: string): string {
  const { exact, rest, form } = figureOf(text);
  const name = tidy(rest);
  const [unit, value, system] = readUnit(name, exact, kind);
  const offer = unit === null || value === null ? null : decimalText(value);
  const why = form ?? system ?? unknownUnit(written, name, exact, unit);
  return offer === null
    ? `${why(written)}, ${expected}`
    : `${why(written)}, expected ${KINDS[kind].title} (try "${offer} ${unit}")`;
}

type Why = (written: string) => string;

interface Figure {
  readonly exact: Exact | null;
  readonly rest: string;
  /** What is unusual about how the number is written. */
  readonly form: Why | null;
}

const FRACTION = /^([+-]?)(?:(\d+)(?:\s+|\s*[-+]\s*))?(\d+)\s*[/\u2044]\s*(\d+)\s*(.*)$/;
const COMMA = /^([+-]?)(\d+),(\d+)(?![\d.,])\s*(.*)$/;
const VULGAR = /[\u00bc-\u00be\u2150-\u215e]/g;

/** The number a text begins with, also as a fraction or with a decimal comma. */
function figureOf(text: string): Figure {
  const [, sign, integer = "0", upper, lower, unit] =
    FRACTION.exec(text.replace(VULGAR, (one) => ` ${one.normalize("NFKC")}`).trim()) ?? [];
  if (upper !== undefined && lower !== undefined && unit !== undefined) {
    const [over, times] = [BigInt(lower), BigInt(integer) * BigInt(lower) + BigInt(upper)];
    const exact = over === 0n ? null : { times: sign === "-" ? -times : times, over };
    return { exact, rest: unit, form: (written) => `"${written}" is a fraction, where a decimal number is read` };
  }
  const [, minus = "", before, after, rest] = COMMA.exec(text) ?? [];
  if (before !== undefined && after !== undefined && rest !== undefined) {
    // 1,300 may be a thousand and more, or one and less than a third
    const certain = after.length !== 3 || before.length > 3 || /^0+$/.test(before);
    const exact = certain ? exactly(`${minus}${before}.${after}`) : null;
    return {
      exact,
      rest,
      form: (written) => `"${written}" has a comma, where the decimal mark is a point and thousands have none`,
    };
  }
  const [, number, others = ""] = NUMBER.exec(text) ?? [];
  return { exact: number === undefined ? null : exactly(number), rest: others, form: null };
}

/** The unit of the kind that a name stands for, the number in it, and what the written unit is called if it is foreign. */
function readUnit(name: string, exact: Exact | null, kind: Kind): readonly [string | null, Exact | null, Why | null] {
  if (Object.hasOwn(KINDS[kind].units, name)) return [name, exact, null];
  const spelling = spellingOf(name, kind);
  if (spelling === null) return [null, null, null];
  const { unit, times, over, called } = spelling;
  const value = exact === null ? null : { times: exact.times * times, over: exact.over * over };
  return [unit, value, called === null ? null : (written) => `"${written}" is in ${called}`];
}

function unknownUnit(written: string, name: string, exact: Exact | null, unit: string | null): Why {
  const other = kindOfUnit(name);
  if (exact !== null && other !== null) return () => `${written} is ${KINDS[other].title}`;
  if (unit !== null) return () => `"${written}" spells its unit in another way`;
  const isWord = exact !== null && name !== "" && !/^[\d.,']/.test(name);
  return () => `"${written}" ${isWord ? "has an unknown unit" : "is not a quantity"}`;
}

/** Degree and micro signs, squares and spare spaces brought to the one spelling of the tables. */
function tidy(name: string): string {
  const plain = name
    .replace(/\u00b0\s*C\b/, "degC")
    .replace(/\u00b0/g, "deg")
    .replace(/\u00b2/g, "^2")
    .replace(/([a-z])2\b/g, "$1^2")
    .replace(/\u221a\s*Hz\b/, "sqrt(Hz)")
    .replace(/[\u00b5\u03bc]/g, "u")
    .replace(/[\u03a9\u2126]/g, "ohm")
    .replace(/[\u00b7*]/g, " ");
  return plain
    .replace(/\s+/g, " ")
    .replace(/\s*([/()^])\s*/g, "$1")
    .trim();
}

function nameOf(value: unknown): string {
  if (value === null) return "an empty value";
  if (Array.isArray(value)) return "a list";
  return typeof value === "object" ? "a group of keys" : `"${String(value)}"`;
}
