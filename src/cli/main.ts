#!/usr/bin/env node
// The command line: parse, run one command, leave with its exit code.
import { runCommandLine } from "./command-line.js";
import { failed } from "./exit.js";

// What nobody caught is a bug and is told as one: Node's own way out is code 1, which means a regression here.
process.on("uncaughtException", (error) => process.exit(failed(error, (line) => process.stderr.write(line))));

// A reader that went away (`| head`) ends the output, not the work.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
  });
}

process.exitCode = await runCommandLine(process.argv.slice(2));
