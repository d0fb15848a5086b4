// JSON for files that people review: what is short, and every plain row of a table, stands on one line, so that a
// difference shows as few lines.

const SHORT = 160; // characters

/** JSON text with keys in the order given; other lists and groups are broken into lines where they are long. */
export function lineJson(value: unknown, indent = ""): string {
  const whole = JSON.stringify(value ?? null);
  if (typeof value !== "object" || value === null || isRow(value)) return whole;
  const inner = `${indent} `;
  if (Array.isArray(value)) {
    if (indent.length + whole.length <= SHORT) return whole;
    return `[\n${value.map((item) => inner + lineJson(item, inner)).join(",\n")}\n${indent}]`;
  }
  const entries = Object.entries(value).filter(([, part]) => part !== undefined);
  const pairs = (parts: (part: unknown) => string) =>
    entries.map(([key, part]) => `${JSON.stringify(key)}: ${parts(part)}`);
  const flat = `{${pairs((part) => JSON.stringify(part)).join(", ")}}`;
  if (indent.length + flat.length <= SHORT) return flat;
  return `{\n${pairs((part) => lineJson(part, inner))
    .map((pair) => inner + pair)
    .join(",\n")}\n${indent}}`;
}

const isRow = (value: object): boolean =>
  Array.isArray(value) &&
  value.every((item) => item === null || (typeof item !== "object" && typeof item !== "string"));
