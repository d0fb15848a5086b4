// Rows of a CSV file as they are handed over: the delimiter noticed, lines counted, what is no text refused.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { readRows } from "../../src/files/rows.js";
import { emptyFolder } from "../cli/command.js";
import { laterComplaintsOf } from "../fixtures/complaints.js";

async function rowsOfText(text: string | Uint8Array): Promise<unknown[]> {
  const file = join(emptyFolder(), "log.csv");
  writeFileSync(file, text);
  const found: unknown[] = [];
  const take = (fields: readonly string[], line: number) => void found.push([line, ...fields]);
  await readRows(file, null, { names: take, row: take });
  return found;
}

it.each([",", ";", "\t"])("the delimiter %j is noticed in the first line", async (mark) => {
  const text = `a${mark}"b, or; c"${mark}d\n\n1${mark}2${mark}3\n`;
  expect(await rowsOfText(text)).toEqual([
    [1, "a", "b, or; c", "d"],
    [3, "1", "2", "3"],
  ]);
});

it("a row that runs over lines is told by its last, and the rows behind by theirs", async () => {
  expect(await rowsOfText('a,b\n"x\ny",1\n2,3\n')).toEqual([
    [1, "a", "b"],
    [3, "x\ny", "1"],
    [4, "2", "3"],
  ]);
});

it("what is empty or no text is refused", async () => {
  expect(await laterComplaintsOf(() => rowsOfText(""))).toEqual([
    expect.stringMatching(/: is empty, expected a CSV file$/),
  ]);
  expect(await laterComplaintsOf(() => rowsOfText("\n\n"))).toEqual([
    expect.stringMatching(/: holds no row, expected /),
  ]);
  const wide = Buffer.from("\ufefftime,x\n1,2\n", "utf16le");
  expect(await laterComplaintsOf(() => rowsOfText(wide))).toEqual([
    expect.stringMatching(/: holds bytes that are no text in UTF-8, expected a CSV file$/),
  ]);
});
