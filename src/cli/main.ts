#!/usr/bin/env node
// The first module: it loads the rest and catches everything, a failure to load included. It imports nothing statically,
// since Node would then exit with code 1, which means a regression here.

const INCOMPLETE = 3;
const BUG = 70;
const UNSETTLED = 13; // Node's

/** Reports an uncaught error and returns the exit code for it. */
type Ending = (error: unknown, write: (line: string) => void) => number;

let ending: Ending = (error, write) => {
  const [reason] = String(error instanceof Error ? error.message : error).split("\n");
  write(`gainscape could not be loaded: ${reason}\n`);
  return BUG;
};

function write(line: string): void {
  try {
    process.stderr.write(line);
  } catch {} // nobody reads it: the exit code still says it
}

// Where a promise never settles, Node exits with a code of its own.
process.on("exit", () => {
  if (process.exitCode === UNSETTLED) process.exitCode = BUG;
});
process.stderr.on("error", () => {});
process.on("uncaughtException", (error) => process.exit(ending(error, write)));

try {
  // First, while there are file handles, the module that explains why the rest may not load.
  const { whyNotLoaded } = await import("./not-loaded.js");
  ending = (error, say) => {
    const { line, incomplete } = whyNotLoaded(error);
    say(line);
    return incomplete ? INCOMPLETE : BUG;
  };
  const { reportFailure, runProgram } = await import("./program.js");
  ending = reportFailure;
  process.exitCode = await runProgram(process.argv.slice(2));
} catch (error) {
  process.exitCode = ending(error, write);
}
