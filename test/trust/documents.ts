// Where the tables stand in the documents: between two marks each, written by a command and checked by a test.
import { type Marks, print as printBetween, printed as printedBetween } from "../documents/marks.js";

type Table = "trust" | "octave";

const marks = (table: Table): Marks => ({
  begin: `<!-- ${table}: written by node test/trust/write.mjs -->`,
  end: `<!-- /${table} -->`,
});

export const printed = (file: string, table: Table = "trust"): string => printedBetween(file, marks(table));

export const print = (file: string, text: string, table: Table = "trust"): void =>
  printBetween(file, marks(table), text);
