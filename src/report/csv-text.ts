// Rows of a CSV file as text (RFC 4180), text that could start a formula neutralised.
import { stringify } from "csv-stringify/sync";

export type Cell = string | number | boolean | null;

// Six digits: finer than any tolerance of the map, and the file stays half as long.
const number = (value: number): string => (Number.isFinite(value) ? String(Number(value.toPrecision(6))) : "");

export const csvText = (rows: readonly (readonly Cell[])[]): string =>
  stringify(
    rows.map((row) => [...row]),
    { escape_formulas: true, cast: { boolean: (value) => (value ? "yes" : "no"), number } },
  );
