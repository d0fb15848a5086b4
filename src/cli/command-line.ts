// The commands and their options. Usage faults leave with 2, as every bad input does.
import { Command, InvalidArgumentError } from "commander";
import { version } from "../base/version.js";
import { checkCommand } from "./check.js";
import { EXIT, failed } from "./exit.js";
import { sweepCommand } from "./sweep.js";

/** Runs one command line and answers its exit code; never throws. */
export async function runCommandLine(words: readonly string[]): Promise<number> {
  let code: number = EXIT.done;
  const program = new Command("gainscape")
    .description("Maps which P and D fly clean, before the first flight.")
    .version(version(), "-v, --version", "print the version")
    .helpOption("-h, --help", "print this help")
    .showHelpAfterError("(gainscape --help lists the commands)")
    .exitOverride();
  program
    .command("sweep")
    .description("simulate every point of a sweep and write its stability map and report")
    .argument("<sweep>", "sweep file (YAML)")
    .option("--model <file>", "fly this model instead of the one the sweep names")
    .option("--out <folder>", "write here instead of reports/<sweep>/<model>-<version>")
    .option("--workers <n>", "worker threads (default: one per core)", wholeNumber(1, 256))
    .option("--quiet", "print nothing but faults")
    .option("--json", "print the outcome as JSON")
    .action(async (path: string, options) => {
      code = await sweepCommand(path, options, words);
    });
  program
    .command("check")
    .description("check models and sweeps without simulating")
    .argument("<files...>", "model or sweep files (YAML)")
    .action((files: string[]) => {
      code = checkCommand(files);
    });
  try {
    await program.parseAsync([...words], { from: "user" });
    return code;
  } catch (error) {
    return failed(error, (line) => process.stderr.write(line));
  }
}

function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (Number.isInteger(value) && value >= least && value <= most) return value;
    throw new InvalidArgumentError(`expected a whole number from ${least} to ${most}.`);
  };
}
