#!/usr/bin/env node
// The first module: it loads the rest and catches everything, failure of loading included. It imports nothing before,
// since Node's own way out is code 1, which means a regression here.

const INCOMPLETE = 3;
const BUG = 70;
const UNSETTLED = 13; // Node's

/** How an error nobody caught is told, and the exit code for it. */
type Ending = (error: unknown, write: (line: string) => void) => number;

let ending: Ending = (error, write) => {
  const [reason] = String(error instanceof Error ? error.message : error).split("\n");
  write(`gainscape could not be loaded: ${reason}\n`);
  return BUG;
};

function write(line: string): void {
  try {
    process.stderr.write(line);
  } catch {} // nobody reads it: the exit code still tells
}

// Where a promise is left hanging, Node leaves with a code of its own.
process.on("exit", () => {
  if (process.exitCode === UNSETTLED) process.exitCode = BUG;
});
process.stderr.on("error", () => {});
process.on("uncaughtException", (error) => process.exit(ending(error, write)));

try {
  // First, while handles are to be had, what knows why the rest may not load.
  const { whyNotLoaded } = await import("./not-loaded.js");
  ending = (error, say) => {
    const { reason, incomplete } = whyNotLoaded(error);
    say(`gainscape could not be loaded: ${reason}\n`);
    return incomplete ? INCOMPLETE : BUG;
  };
  const { reportFailure, runProgram } = await import("./program.js");
  ending = reportFailure;
  process.exitCode = await runProgram(process.argv.slice(2));
} catch (error) {
  process.exitCode = ending(error, write);
}
