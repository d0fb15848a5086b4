// How every command ends: one meaning per exit code.
import { CommanderError } from "commander";
import { InputError, printable } from "../base/problem.js";
import { Interrupted } from "../files/interrupted.js";
import { NotWritten } from "../files/write.js";
import { DrawingError } from "../flow/drawing.js";
import { RunIncomplete } from "../run/incomplete.js";
import { NotLoaded } from "./load-module.js";
import { whyNotLoaded } from "./not-loaded.js";
import { refusal } from "./refusal.js";

export const EXIT = Object.freeze({ done: 0, regression: 1, input: 2, incomplete: 3, bug: 70 });

/** What each says to whoever started the command. */
export const EXIT_MEANINGS: Readonly<Record<keyof typeof EXIT, string>> = Object.freeze({
  done: "done, no regression",
  regression: "a gate failed",
  input: "bad input, wrong usage, or two maps that cannot be compared",
  incomplete:
    "incomplete: interrupted, a worker lost, a result or the outcome that could not be written, or a limit of the system",
  bug: "a bug of ours, or an installation that is not whole",
});

/** Writes what went wrong to standard error and returns the exit code for it. */
export function reportFailure(error: unknown, write: (line: string) => void): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.input;
  if (error instanceof InputError) {
    write(`${error.message}\n`);
    return EXIT.input;
  }
  if (error instanceof RunIncomplete) {
    const trials = error.missing.reduce((sum, task) => sum + task.p.length, 0);
    const rest = error.resumable
      ? "finished trials are cached: the same command goes on from there"
      : "nothing was written";
    for (const line of error.details) write(`missing: ${printable(line)}\n`);
    write(`incomplete: ${printable(error.reason)}; ${trials} trials of this stage are missing, ${rest}\n`);
    return EXIT.incomplete;
  }
  if (error instanceof NotWritten || error instanceof Interrupted) {
    write(`incomplete: ${printable(error.message)}\n`);
    return EXIT.incomplete;
  }
  if (error instanceof DrawingError) {
    write(`gainscape has a bug: ${printable(error.message)}.\n`);
    trace(error.cause, write);
    return EXIT.bug;
  }
  if (error instanceof NotLoaded) {
    const { line, incomplete } = whyNotLoaded(error.cause);
    write(line);
    trace(error.cause, write);
    return incomplete ? EXIT.incomplete : EXIT.bug;
  }
  const refused = refusal(error);
  if (refused !== null) {
    write(`incomplete: ${refused}\n`);
    return EXIT.incomplete;
  }
  const thrown = error instanceof Error ? error : new Error(String(error));
  write(`gainscape has a bug: ${thrown.message.split("\n")[0]}\nPlease report it with the command and its files.\n`);
  trace(thrown, write);
  return EXIT.bug;
}

function trace(thrown: unknown, write: (line: string) => void): void {
  if (process.env.GAINSCAPE_TRACE === "1" && thrown instanceof Error) write(`${thrown.stack}\n`);
}
