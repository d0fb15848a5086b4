// Rows of text in columns, for a terminal.

const GAP = 2;
const INDENT = "  ";

/** Columns as wide as their widest cell. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, k) => Math.max(...rows.map((row) => (row[k] ?? "").length)) + GAP);
  return rows.map((row) =>
    `${INDENT}${row.map((cell, k) => cell.padEnd(widths[k] ?? 0)).join("")}`.trimEnd().replaceAll("\u00a0", " "),
  );
}
