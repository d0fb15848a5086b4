// The one writer of JSON: keys sorted, finite numbers only, so that a value has one text whatever the order its keys were
// put in. On one line for files that programs read, laid out for those that people review.

/** JSON on one line, keys sorted, undefined left out; numbers as JavaScript prints them. RangeError on NaN and infinities. */
export function canonicalJson(value: unknown): string {
  if (typeof value === "number" && !Number.isFinite(value))
    throw new RangeError("canonical JSON holds finite numbers only");
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
  if (typeof value === "object" && value !== null)
    return `{${sortedEntries(value)
      .map(([key, part]) => `${JSON.stringify(key)}:${canonicalJson(part)}`)
      .join(",")}}`;
  return JSON.stringify(value ?? null);
}

const SHORT = 160; // characters

/**
 * The same value for files that people review: what is short, and every plain row of a table, stands on one line, so that
 * a difference shows as few lines. RangeError as above.
 */
export function lineJson(value: unknown, indent = ""): string {
  const oneLine = canonicalJson(value);
  if (typeof value !== "object" || value === null || isRow(value)) return oneLine;
  const inner = `${indent} `;
  if (Array.isArray(value)) {
    if (indent.length + oneLine.length <= SHORT) return oneLine;
    return `[\n${value.map((item) => inner + lineJson(item, inner)).join(",\n")}\n${indent}]`;
  }
  const pairs = (parts: (part: unknown) => string) =>
    sortedEntries(value).map(([key, part]) => `${JSON.stringify(key)}: ${parts(part)}`);
  const flat = `{${pairs(canonicalJson).join(", ")}}`;
  if (indent.length + flat.length <= SHORT) return flat;
  return `{\n${pairs((part) => lineJson(part, inner))
    .map((pair) => inner + pair)
    .join(",\n")}\n${indent}}`;
}

const isRow = (value: object): boolean =>
  Array.isArray(value) &&
  value.every((item) => item === null || (typeof item !== "object" && typeof item !== "string"));

const sortedEntries = (value: object): [key: string, part: unknown][] =>
  Object.entries(value)
    .filter(([, part]) => part !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
