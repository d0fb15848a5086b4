// Decimal numbers without rounding, so that what a hint offers is what was written.

/** A number as a fraction; `over` is above 0. */
export interface Exact {
  readonly times: bigint;
  readonly over: bigint;
}

const DECIMAL = /^([+-]?)(\d*)\.?(\d*)(?:e([+-]?\d+))?$/i;
const FURTHEST = 40; // decimal places either way; no craft needs more

/** The number a decimal text stands for, or null where it is none, or one beyond all measure. */
export function exactly(text: string): Exact | null {
  const [, sign = "", integer = "", fraction = "", exponent = "0"] = DECIMAL.exec(text) ?? [];
  if (integer + fraction === "") return null;
  const places = fraction.length - Number(exponent);
  if (Math.abs(places) > FURTHEST) return null;
  const digits = BigInt(integer + fraction) * (sign === "-" ? -1n : 1n);
  return places > 0
    ? { times: digits, over: 10n ** BigInt(places) }
    : { times: digits * 10n ** BigInt(-places), over: 1n };
}

/** The fraction as a decimal text, or null where it has no end within reach. */
export function decimalText({ times, over }: Exact): string | null {
  const size = times < 0n ? -times : times;
  for (let places = 0; places <= FURTHEST; places++) {
    const scaled = size * 10n ** BigInt(places);
    if (scaled % over !== 0n) continue;
    const digits = String(scaled / over).padStart(places + 1, "0");
    const point = digits.length - places;
    return `${times < 0n ? "-" : ""}${digits.slice(0, point)}${places > 0 ? `.${digits.slice(point)}` : ""}`;
  }
  return null;
}
