// Parts of a document that a command writes: between two marks each, held current by a test.
import { readFileSync, writeFileSync } from "node:fs";

export interface Marks {
  readonly begin: string;
  readonly end: string;
}

export const generated = (name: string): Marks => ({ begin: `<!-- generated: ${name} -->`, end: "<!-- end -->" });

/** What stands between the marks. */
export const printed = (file: string, marks: Marks): string => parts(file, marks)[1].trim();

export function print(file: string, marks: Marks, text: string): void {
  const [before, , after] = parts(file, marks);
  writeFileSync(file, `${before}\n${text}\n${after}`);
}

function parts(file: string, { begin, end }: Marks): readonly [before: string, between: string, after: string] {
  const text = readFileSync(file, "utf8");
  const from = text.indexOf(begin);
  const to = text.indexOf(end, from);
  if (from < 0 || to < from) throw new Error(`${file} has no place for it: ${begin} and then ${end}`);
  return [text.slice(0, from + begin.length), text.slice(from + begin.length, to), text.slice(to)];
}

/** A table of Markdown; a bar within a cell is spelt so that it ends none. */
export function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(heads), line(heads.map(() => "---")), ...rows.map(line)].join("\n");
}
