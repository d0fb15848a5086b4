// Numbers for pages and summaries: three significant digits, a true minus, grouped thousands; the same in every locale.

const NO_BREAK_SPACE = "\u00a0";

const grouped = (digits: string): string => digits.replace(/\B(?=(\d{3})+(?!\d))/g, NO_BREAK_SPACE);

/** Three significant digits without trailing zeros: 20.6, 2.94, 1 230. */
export function toThreeDigits(value: number): string {
  const rounded = Number(value.toPrecision(3));
  const [integer = "0", fraction] = String(Math.abs(rounded)).split(".");
  const sign = rounded < 0 ? "\u2212" : "";
  return `${sign}${integer.includes("e") ? integer : grouped(integer)}${fraction === undefined ? "" : `.${fraction}`}`;
}

/** An end of an interval in %: two digits, and never finer than a hundredth, for a few dozen draws say no more. */
export const intervalEnd = (value: number): string => toThreeDigits(Number(Number(value.toPrecision(2)).toFixed(2)));

/** A whole number in full, thousands grouped. */
export const count = (value: number): string => grouped(String(Math.round(value)));

/** A change as a factor: "× 1.28". */
export const times = (factor: number): string => `\u00d7${NO_BREAK_SPACE}${toThreeDigits(factor)}`;

/** A share of one as percent: 0.048 is "4.8 %". */
export const percent = (share: number): string => `${toThreeDigits(share * 100)}${NO_BREAK_SPACE}%`;

/** A number and its unit, kept on one line: "15 %", "500 °/s", "8°"; a unit of "" leaves the number alone. */
export function withUnit(value: number, unit: string): string {
  const close = unit === "" || (unit.startsWith("\u00b0") && !unit.startsWith("\u00b0/"));
  const unitWords = toThreeDigits(value) === "1" ? unit.replace(/cycles$/, "cycle") : unit; // the one unit that is counted
  return `${toThreeDigits(value)}${close ? "" : NO_BREAK_SPACE}${unitWords}`;
}

/** A predicted number, to two significant digits: "18 %", "220 ms". */
export const about = (value: number, unit: string): string => withUnit(Number(value.toPrecision(2)), unit);
