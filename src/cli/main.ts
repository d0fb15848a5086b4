#!/usr/bin/env node
// The command line: parse, run one command, leave with its exit code.
import { runCommandLine } from "./command-line.js";

// A reader that went away (`| head`) is no fault of ours.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(0);
  });
}

process.exitCode = await runCommandLine(process.argv.slice(2));
