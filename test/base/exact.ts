// Elementary functions to some 60 digits in whole-number arithmetic, as the oracle of the double ones.
const BITS = 320n;
const ONE = 1n << BITS;

const product = (a: bigint, b: bigint): bigint => (a * b) >> BITS;
const quotient = (a: bigint, b: bigint): bigint => (a << BITS) / b;

/** A double as a whole number of 2^-320; exact down to 2^-320. */
export function fixed(x: number): bigint {
  let integer = x;
  let shift = 0n;
  for (; !Number.isInteger(integer); shift += 1n) integer *= 2;
  return (BigInt(integer) << BITS) >> shift;
}

function arctangentOfInverse(n: bigint): bigint {
  let sum = 0n;
  let power = ONE / n;
  for (let k = 1n; power !== 0n; k += 2n, power /= -n * n) sum += power / k;
  return sum;
}

/** Machin's formula. */
export const PI = 16n * arctangentOfInverse(5n) - 4n * arctangentOfInverse(239n);

export function exactExp(x: bigint): bigint {
  const small = x >> 16n;
  let sum = 0n;
  let term = ONE;
  for (let k = 1n; term !== 0n && term !== -1n; k += 1n) {
    sum += term;
    term = product(term, small) / k;
  }
  for (let i = 0; i < 16; i++) sum = product(sum, sum);
  return sum;
}

/** Halley's iteration from a rough start; digits triple at each step. */
export function exactLn(x: bigint, start: number): bigint {
  let y = fixed(start);
  for (let i = 0; i < 4; i++) {
    const e = exactExp(y);
    y += quotient(2n * (x - e), x + e);
  }
  return y;
}

export function exactSin(x: bigint): bigint {
  const angle = x % (2n * PI);
  const square = product(angle, angle);
  let sum = 0n;
  let term = angle;
  for (let k = 2n; term !== 0n && term !== -1n; k += 2n) {
    sum += term;
    term = -product(term, square) / (k * (k + 1n));
  }
  return sum;
}

export const exactCos = (x: bigint): bigint => exactSin(x + PI / 2n);

/** Distance of a double from the exact value, in units in the last place of that double. */
export function ulpsFrom(exact: bigint, value: number): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, Math.abs(value));
  view.setBigUint64(0, view.getBigUint64(0) + 1n);
  const ulp = fixed(view.getFloat64(0)) - fixed(Math.abs(value));
  return Number(((exact - fixed(value)) * 1000000n) / ulp) / 1e6;
}

/** A fixed-point value as its leading decimal digits, cut. */
export const digits = (x: bigint, places: number): string => {
  const text = ((x * 10n ** BigInt(places)) >> BITS).toString();
  return `${text.slice(0, -places) || "0"}.${text.slice(-places)}`;
};
