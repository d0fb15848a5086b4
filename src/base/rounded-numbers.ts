// Numbers of plain data to as many digits as a result deserves, so that an engine's last bits show in no file.

const DIGITS = 9;

/** The same data with every number to nine significant digits. */
export function roundedNumbers<T>(value: T): T {
  if (typeof value === "number") return Number(value.toPrecision(DIGITS)) as T;
  if (Array.isArray(value)) return value.map(roundedNumbers) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, roundedNumbers(one)])) as T;
}
