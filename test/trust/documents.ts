// Where the tables stand in the documents: between two marks each, written by a command and held current by a test.
import { readFileSync, writeFileSync } from "node:fs";

const BEGIN = "<!-- trust: written by node test/trust/write.mjs -->";
const END = "<!-- /trust -->";

function parts(file: string): readonly [before: string, between: string, after: string] {
  const text = readFileSync(file, "utf8");
  const [from, to] = [text.indexOf(BEGIN), text.indexOf(END)];
  if (from < 0 || to < from) throw new Error(`${file} has no place for the table: ${BEGIN} and ${END}`);
  return [text.slice(0, from + BEGIN.length), text.slice(from + BEGIN.length, to), text.slice(to)];
}

export const printed = (file: string): string => parts(file)[1].trim();

export function print(file: string, table: string): void {
  const [before, , after] = parts(file);
  writeFileSync(file, `${before}\n${table}\n${after}`);
}
