// Where the tables stand in the documents: between two marks each, written by a command and checked by a test.
import { readFileSync, writeFileSync } from "node:fs";

type Table = "trust" | "octave";

function parts(file: string, table: Table): readonly [before: string, between: string, after: string] {
  const [begin, end] = [`<!-- ${table}: written by node test/trust/write.mjs -->`, `<!-- /${table} -->`];
  const text = readFileSync(file, "utf8");
  const [from, to] = [text.indexOf(begin), text.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`${file} has no place for the table: ${begin} and ${end}`);
  return [text.slice(0, from + begin.length), text.slice(from + begin.length, to), text.slice(to)];
}

export const printed = (file: string, table: Table = "trust"): string => parts(file, table)[1].trim();

export function print(file: string, text: string, table: Table = "trust"): void {
  const [before, , after] = parts(file, table);
  writeFileSync(file, `${before}\n${text}\n${after}`);
}
