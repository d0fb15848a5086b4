// The commands and their options. Usage faults leave with 2, as every bad input does.
import { Command, InvalidArgumentError } from "commander";
import { version } from "../base/version.js";
import { baselineCommand } from "./baseline.js";
import { checkCommand } from "./check.js";
import { compareCommand } from "./compare.js";
import { EXIT, failed } from "./exit.js";
import { gateCommand } from "./gate.js";
import { sweepCommand } from "./sweep.js";

const BASELINES = "reports/baselines";

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
    .option("--out <folder>", "write here instead of reports/<sweep>/<model>-<version>", folderName)
    .option("--workers <n>", "worker threads (default: one per core)", wholeNumber(1, 256))
    .option("--quiet", "print nothing but faults")
    .option("--json", "print the outcome as JSON")
    .action(async (path: string, options) => {
      code = await sweepCommand(path, options, words);
    });
  program
    .command("compare")
    .description("compare two stability maps: what moved, and is it within the gates?")
    .argument("<base>", "map.json, its folder or a baseline; or a sweep file with --from and --to")
    .argument("[candidate]", "map.json, its folder or a baseline")
    .option("--from <file>", "model of the base, flown where its map is missing")
    .option("--to <file>", "model of the candidate, flown where its map is missing")
    .option("--out <folder>", "write here instead of reports/comparisons/<sweep>/<base>-to-<candidate>", folderName)
    .option("--fresh", "fly both models even where their maps are there")
    .option("--workers <n>", "worker threads (default: one per core)", wholeNumber(1, 256))
    .option("--quiet", "print nothing but faults")
    .option("--json", "print the outcome as JSON")
    .action(async (base: string, candidate: string | undefined, options) => {
      code = await compareCommand(base, candidate, options, words);
    });
  program
    .command("baseline")
    .description("keep the map of a sweep's base model for later comparisons, as a compact file to review")
    .argument("<sweep>", "sweep file (YAML)")
    .option("--model <file>", "keep this model instead of the one the sweep names")
    .option("--baselines <folder>", "where baselines are kept", folderName, BASELINES)
    .option("--workers <n>", "worker threads (default: one per core)", wholeNumber(1, 256))
    .option("--quiet", "print nothing but faults")
    .action(async (path: string, options) => {
      code = await baselineCommand(path, options);
    });
  program
    .command("gate")
    .description("fly every candidate the sweeps name and hold it against its baseline; for nightly runs")
    .argument("<sweeps...>", "sweep files (YAML) with a baseline")
    .option("--baselines <folder>", "where baselines are kept", folderName, BASELINES)
    .option("--out <folder>", "write here", folderName, "reports/gate")
    .option("--workers <n>", "worker threads (default: one per core)", wholeNumber(1, 256))
    .option("--quiet", "print nothing but faults")
    .action(async (sweeps: string[], options) => {
      code = await gateCommand(sweeps, options, words);
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

function folderName(text: string): string {
  if (text.trim() !== "") return text;
  throw new InvalidArgumentError('expected a folder; "." is the one you are in.');
}
