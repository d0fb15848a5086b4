// What may come of a hostile input: it is used, or refused with problems fit for a terminal. Nothing else.
import { expect } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { runCommandLine } from "../../src/cli/command-line.js";
import { EXIT } from "../../src/cli/exit.js";
import { READABLE } from "../cli/command.js";

const LONGEST = 60_000; // characters of a message: fifty problems with their places

/** The value, or null where it was refused in order. */
export function usedOrRefused<T>(act: () => T): T | null {
  try {
    return act();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.problems.length).toBeGreaterThan(0);
    expectShort(error.message);
    return null;
  }
}

export function expectReadable(text: string): void {
  if (!READABLE.test(text)) throw new Error(`not fit for a terminal: ${JSON.stringify(text.slice(0, 500))}`);
}

function expectShort(text: string): void {
  expectReadable(text);
  if (text.length > LONGEST) throw new Error(`a message of ${text.length} characters: ${text.slice(0, 200)}`);
}

/** Runs a command line in this process and answers its code, having looked at all it wrote. */
export async function commandLine(...words: readonly string[]): Promise<number> {
  const written: string[] = [];
  const { stdout, stderr } = process;
  const saved = [stdout.write, stderr.write] as const;
  stdout.write = stderr.write = (text: string | Uint8Array) => written.push(String(text)) > 0;
  let code: number;
  try {
    code = await runCommandLine(words);
  } finally {
    [stdout.write, stderr.write] = saved;
  }
  const text = written.join("");
  if (code === EXIT.bug) throw new Error(text);
  expect([EXIT.done, EXIT.regression, EXIT.input]).toContain(code);
  expectShort(text);
  return code;
}
