// Files of one JSON value a line, larger than memory if need be: read in pieces, handed over line by line.
import { createReadStream } from "node:fs";
import { fileProblem, InputError } from "../base/problem.js";
import { errorCode, fileSize } from "./read.js";

const PIECE = 2 ** 18; // bytes
const LONGEST_LINE = 2 ** 20; // characters

/**
 * Hands over each line that is not blank, with its number from 1, until `take` returns false. InputError where the file
 * cannot be read.
 */
export async function readLines(
  path: string,
  expected: string,
  take: (line: string, number: number) => boolean,
): Promise<void> {
  fileSize(path, expected);
  const decoder = new TextDecoder("utf-8");
  let rest = "";
  let number = 0;
  const goesOn = (line: string): boolean => {
    number++;
    return line.trim() === "" || take(line, number);
  };
  try {
    for await (const piece of createReadStream(path, { highWaterMark: PIECE })) {
      const lines = (rest + decoder.decode(piece as Uint8Array, { stream: true })).split("\n");
      rest = lines.pop() ?? "";
      if (!lines.every(goesOn)) return;
      if (rest.length > LONGEST_LINE) throw new InputError([tooLong(path, number + 1)]);
    }
  } catch (error) {
    if (error instanceof InputError || !(error instanceof Error && "syscall" in error)) throw error;
    throw new InputError([fileProblem(path, `cannot be read (${errorCode(error)})`)]);
  }
  if (rest !== "") goesOn(rest);
}

const tooLong = (file: string, line: number) => ({
  ...fileProblem(file, `a line of more than ${LONGEST_LINE} characters, expected one record a line`),
  line,
  column: 1,
});
