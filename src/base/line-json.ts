// JSON for files that people review: what is short stands on one line, so that a difference shows as few lines.

const SHORT = 110; // characters

/** JSON text with keys in the order given; lists and groups are broken into lines only where they are long. */
export function lineJson(value: unknown, indent = ""): string {
  const whole = JSON.stringify(value ?? null);
  if (whole.length + indent.length <= SHORT || typeof value !== "object" || value === null) return spaced(value, whole);
  const inner = `${indent} `;
  if (Array.isArray(value)) return `[\n${value.map((item) => inner + lineJson(item, inner)).join(",\n")}\n${indent}]`;
  const entries = Object.entries(value).filter(([, part]) => part !== undefined);
  const lines = entries.map(([key, part]) => `${inner}${JSON.stringify(key)}: ${lineJson(part, inner)}`);
  return `{\n${lines.join(",\n")}\n${indent}}`;
}

/** Numbers of a list stay packed; groups get a space to breathe. */
const spaced = (value: unknown, whole: string): string =>
  typeof value === "object" && value !== null && !Array.isArray(value)
    ? `{${Object.entries(value)
        .filter(([, part]) => part !== undefined)
        .map(([key, part]) => `${JSON.stringify(key)}: ${JSON.stringify(part ?? null)}`)
        .join(", ")}}`
    : whole;
