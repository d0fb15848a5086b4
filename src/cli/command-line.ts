// The commands and their options. Usage errors exit with 2, as every bad input does.
import { Argument, Command, Option } from "commander";
import { fileProblem, InputError, printable } from "../base/problem.js";
import { version } from "../base/version.js";
import { QUESTIONS } from "../estimate/questions.js";
import { completionScript, SHELLS, type Shell } from "./completion.js";
import { EXIT, reportFailure } from "./exit.js";
import { loadModule } from "./load-module.js";
import { axisName, collected, dateText, folderName, refuseChanges, shareOf, wholeNumber } from "./option-values.js";
import { withPlainOutput } from "./plain-output.js";
import { NO_WORKING_FOLDER } from "./refusal.js";
import { untilInterrupted } from "./signals.js";

const BASELINES = "reports/baselines";

/** Runs one command line and returns its exit code; never throws. */
export const runCommandLine = (words: readonly string[]): Promise<number> =>
  withPlainOutput(() => untilInterrupted((signal) => parsed(words, signal)));

async function parsed(words: readonly string[], signal: AbortSignal): Promise<number> {
  let code: number = EXIT.done;
  const program = new Command("gainscape")
    .description("Maps which P and D are clean, before the first flight.")
    .version(version(), "-v, --version", "print the version")
    .helpOption("-h, --help", "print this help")
    .showHelpAfterError("(gainscape --help lists the commands)")
    .configureOutput({ outputError: (text, write) => write(text.split("\n").map(printable).join("\n")) })
    .exitOverride()
    .hook("preAction", checkWorkingFolder);
  answeredCommand(program.command("new"))
    .description("write a model from what its builder knows; asks on a terminal, unless answers are given")
    .argument("<file>", "the model to write (YAML); a file that is there stays")
    .action(async (path: string, options) => {
      const { newCommand } = await loadModule(import("./new.js"));
      code = await newCommand(path, { ...options, signal });
    });
  answeredCommand(simulatingCommand(program, "init"))
    .description(
      "start a repository: a new model, sweeps, its first baseline and a job that holds it against that each night",
    )
    .argument("[folder]", "where to write; what is there stays", folderName, ".")
    .action(async (folder: string, options) => {
      const { initCommand } = await loadModule(import("./init.js"));
      code = await initCommand(folder, { ...options, signal });
    });
  simulatingCommand(program, "sweep")
    .description("simulate every point of a sweep and write its stability map and report")
    .argument("<sweep>", "sweep file (YAML)")
    .option("--model <file>", "simulate this model instead of the one the sweep names")
    .option(...SET)
    .option("--out <folder>", "write here instead of reports/<sweep>/<model>-<version>", folderName)
    .option(...SHARD)
    .option(...GRID)
    .option(...TREND)
    .option(...DATE)
    .option("--quiet", "print errors only")
    .option("--json", "print the outcome as JSON")
    .addOption(JSON_LINES)
    .action(async (path: string, options) => {
      const { sweepCommand } = await loadModule(import("./sweep.js"));
      code = await sweepCommand(path, { ...options, signal });
    });
  simulatingCommand(program, "card")
    .description("write the flight-test card of a sweep alone, from its map if that is there already")
    .argument("<sweep>", "sweep file (YAML)")
    .option("--model <file>", "the model to simulate instead of the one the sweep names")
    .option("--out <folder>", "write here instead of reports/<sweep>/<model>-<version>", folderName)
    .option("--fresh", "simulate the model even where its map is there")
    .option("--test-stand <axis>", "roll or pitch alone, for a craft held on a test stand; never for flight", axisName)
    .option(...UNSEALED)
    .option("--quiet", "print errors only")
    .action(async (path: string, options) => {
      const { cardCommand } = await loadModule(import("./card.js"));
      code = await cardCommand(path, { ...options, signal });
    });
  program
    .command("report")
    .description("draw page, card and table of a map again, without simulating")
    .argument("<map>", "map.json or its folder")
    .option("--out <folder>", "write here instead of beside the map", folderName)
    .option(...UNSEALED)
    .option("--quiet", "print errors only")
    .action(async (path: string, options) => {
      const { reportCommand } = await loadModule(import("./report.js"));
      code = await reportCommand(path, { ...options, signal });
    });
  program
    .command("fit")
    .description("say what flights tell about their model: page, fit.json and, with --out, a new version of the model")
    .argument("<flights...>", "flight files (YAML): a log, sightings, or both")
    .option("--model <file>", "fit this version of the craft instead of the one the flights name")
    .option("--out <file>", "write the new version of the model here; a file that is there stays")
    .option("--report <folder>", "write page and fit.json here instead of reports/fits/<model>-<version>", folderName)
    .option("--sweep <file>", "judge the model by the draws of this sweep instead of sweeps/first-tune.yaml")
    .option("--quiet", "print errors only")
    .option("--json", "print the outcome as JSON")
    .action(async (flights: string[], options) => {
      const { fitCommand } = await loadModule(import("./fit.js"));
      code = await fitCommand(flights, { ...options, signal }, words);
    });
  simulatingCommand(program, "compare")
    .description("compare two maps, or a model and a change of it: what moved, and is it within the gates?")
    .argument("<base>", "map.json, its folder or a baseline; a sweep file with --from and --to; or a model with --set")
    .argument("[candidate]", "map.json, its folder or a baseline")
    .option("--from <file>", "model of the base, simulated where its map is missing")
    .option("--to <file>", "model of the candidate, simulated where its map is missing")
    .option(...SET)
    .option("--sweep <file>", "simulate the model and its change under this sweep, instead of theory alone")
    .option("--out <folder>", "write here instead of reports/comparisons/<sweep>/<base>-to-<candidate>", folderName)
    .option("--fresh", "simulate both models even where their maps are there")
    .option(...UNSEALED)
    .option("--quiet", "print errors only")
    .option("--json", "print the outcome as JSON")
    .action(async (base: string, candidate: string | undefined, options) => {
      const { compareCommand } = await loadModule(import("./compare.js"));
      code = await compareCommand(base, candidate, { ...options, signal }, words);
    });
  simulatingCommand(program, "baseline")
    .description("write the map of a sweep's base model as a baseline for later comparisons: a compact file to review")
    .argument("<sweep>", "sweep file (YAML)")
    .option("--model <file>", "use this model instead of the one the sweep names")
    .addOption(refusedSet("a baseline"))
    .option("--baselines <folder>", "folder of the baselines", folderName, BASELINES)
    .option(...TREND)
    .option(...DATE)
    .option("--quiet", "print errors only")
    .action(async (path: string, options) => {
      const { baselineCommand } = await loadModule(import("./baseline.js"));
      code = await baselineCommand(path, { ...options, signal });
    });
  simulatingCommand(program, "gate")
    .description("simulate every candidate the sweeps name and compare it with its baseline; for nightly runs")
    .argument("<sweeps...>", "sweep files (YAML) with a baseline")
    .addOption(refusedSet("a side of a gate"))
    .option("--baselines <folder>", "folder of the baselines", folderName, BASELINES)
    .option("--out <folder>", "write here instead of reports/gate", folderName)
    .option(...UNSEALED)
    .option(...SHARD)
    .option(...GRID)
    .option(...TREND)
    .option(...DATE)
    .option("--quiet", "print errors only")
    .option("--json", "print the outcome as JSON")
    .action(async (sweeps: string[], options) => {
      const { gateCommand } = await loadModule(import("./gate.js"));
      code = await gateCommand(sweeps, { ...options, signal });
    });
  simulatingCommand(program, "merge")
    .description("put the shards of a sweep or gate together and carry it on, as if one machine had simulated it")
    .argument("<folders...>", "folders that hold the shards, all of them")
    .option("--out <folder>", "write here instead of where the command would have", folderName)
    .option(...UNSEALED)
    .option(...TREND)
    .option(...DATE)
    .option("--quiet", "print errors only")
    .option("--json", "print the outcome as JSON")
    .action(async (folders: string[], options) => {
      const { mergeCommand } = await loadModule(import("./merge.js"));
      code = await mergeCommand(folders, { ...options, signal });
    });
  program
    .command("record")
    .description("record finished maps for their trend, as sweep, gate and baseline do with --trend")
    .argument("<maps...>", "map.json, its folder or a baseline")
    .requiredOption(...TREND)
    .requiredOption(...DATE)
    .option("--quiet", "print errors only")
    .option("--json", "print the outcome as JSON")
    .action(async (maps: string[], options) => {
      const { recordCommand } = await loadModule(import("./record.js"));
      code = await recordCommand(maps, options);
    });
  program
    .command("trend")
    .description("draw how models moved over versions and dates, from the records of their maps, and name what did it")
    .argument("<records...>", "folders or files of records (JSON lines)")
    .option("--out <folder>", "write here instead of reports/trend", folderName)
    .option("--quiet", "print errors only")
    .option("--json", "print the trends as JSON")
    .action(async (records: string[], options) => {
      const { trendCommand } = await loadModule(import("./trend.js"));
      code = await trendCommand(records, { ...options, signal });
    });
  program
    .command("cache")
    .description("show what is cached of earlier runs, or clear it")
    .option("--cache <folder>", "the cache to look at", folderName)
    .option("--clear", "delete every cached file")
    .action(async (options) => {
      const { cacheCommand } = await loadModule(import("./cache.js"));
      code = cacheCommand(options);
    });
  program
    .command("check")
    .description("check models, sweeps and flights, print a model's sheet and what a log holds, without simulating")
    .argument("<files...>", "model, sweep, script, answers or flight files (YAML)")
    .option(...SET)
    .option("--quiet", "print errors only")
    .option("--json", "print what was found, sheets included, as JSON")
    .action(async (files: string[], options) => {
      const { checkCommand } = await loadModule(import("./check.js"));
      code = await checkCommand(files, options);
    });
  program
    .command("completion")
    .description("print what makes a shell complete commands and options: source <(gainscape completion bash)")
    .addArgument(new Argument("<shell>").choices(SHELLS))
    .action((shell: Shell) => {
      process.stdout.write(completionScript(program, shell));
    });
  try {
    await program.parseAsync([...words], { from: "user" });
    return code;
  } catch (error) {
    return reportFailure(error, (line) => process.stderr.write(line));
  }
}

/** Every path of a command is relative to the working folder. */
function checkWorkingFolder(): void {
  try {
    process.cwd();
  } catch {
    throw new InputError([fileProblem("gainscape", NO_WORKING_FOLDER)]);
  }
}
const UNSEALED = [
  "--unsealed",
  "accept a map or baseline whose seal is missing or broken, as one edited by hand, and say so in the output",
] as const;

const TREND = [
  "--trend <folder>",
  "record the finished map for its trend in this folder (or .jsonl file); needs --date",
  folderName,
] as const;

const DATE = ["--date <date>", 'date of the record, as 2026-11-28 or "$(git log -1 --format=%cI)"', dateText] as const;
const SET = [
  "--set <key=value>",
  'set a key of the model anew, without a file: "pack.cells=6"; empty: take it out; repeatable',
  collected,
] as const;

/** Of commands that take no change. */
const refusedSet = (what: string): Option =>
  new Option("--set <key=value>").hideHelp().argParser(() => refuseChanges(what));

const JSON_LINES = new Option(
  "--json-lines",
  "print theory's first answer at once, then progress and the outcome, each as a line of JSON",
).conflicts(["json", "shard"]);

const SHARD = ["--shard <i/n>", "simulate only share i of n, to be put together by gainscape merge", shareOf] as const;

const GRID = [
  "--grid <folder>",
  "with every share of the grid in this folder, --shard simulates a share of the draws",
  folderName,
] as const;

/** A command that simulates, with the options all of them share. */
const simulatingCommand = (program: Command, name: string): Command =>
  program
    .command(name)
    .option("--workers <n>", "worker threads (default: one per core)", wholeNumber(1, 256))
    .option("--cache <folder>", "cache trials and finished files here instead of in the user's cache", folderName)
    .option("--no-cache", "use no cache")
    .option(
      "--cache-limit <MiB>",
      "evicts least recently used entries above this size (default: 1024)",
      wholeNumber(1, 1_000_000),
    );

/** A command that makes a model from answers. On a terminal an empty answer says so; an option is left out. */
function answeredCommand(command: Command): Command {
  command
    .option("--answers <file>", "answers (YAML) instead of asking")
    .option("--bench <file>", "bench table of motor and propeller (CSV), in place of estimates")
    .option("--quiet", "print errors only");
  for (const { option, ask, example } of QUESTIONS)
    command.option(option, `${ask.replace("(empty:", "(left out:")}, like "${example}"`);
  return command;
}
