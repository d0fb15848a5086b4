// gainscape new: a model from what its builder knows, asked for on a terminal, or given by options or a file.
import { InputError, printable } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { quantityText } from "../base/units.js";
import { METERS } from "../estimate/bench.js";
import type { BenchTable } from "../estimate/bench-table.js";
import { flagOf, QUESTIONS } from "../estimate/questions.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { type AnswerTexts, keyOf, readAnswers } from "../flow/answers.js";
import { checkNew, firstTune, type NewModel, newModel, readBench, writeModel } from "../flow/new-model.js";
import { EXIT } from "./exit.js";

export interface NewOptions {
  readonly answers?: string;
  readonly bench?: string;
  readonly quiet?: boolean;
  readonly signal: AbortSignal;
}

export async function newCommand(path: string, options: NewOptions): Promise<number> {
  checkNew(path);
  const { model, table } = await answeredModel(path, options);
  await unlessInterrupted(options.signal, path);
  writeModel(model.text, path);
  if (options.quiet !== true) process.stdout.write(`${outcome(path, model, table).map(printable).join("\n")}\n`);
  return EXIT.done;
}

interface Answered {
  readonly model: NewModel;
  readonly table: BenchTable | null;
}

/**
 * The model of the answers: asked for on a terminal, or given. `options` also holds those that were given as options, by
 * commander's names of them; `accept` may refuse the model. `place` is where it will be written.
 */
export async function answeredModel(
  place: string,
  options: NewOptions,
  accept: (model: NewModel) => void = () => {},
): Promise<Answered> {
  const table = options.bench === undefined ? null : readBench(options.bench);
  const asOptions = textsOf(options as unknown as Readonly<Record<string, unknown>>);
  const asks = options.answers === undefined && Object.keys(asOptions).length === 0 && onTerminal();
  // Loaded by nothing else: it draws on the terminal and takes the keys.
  const texts = asks ? await (await import("./ask.js")).askAll(place, options.signal) : asOptions;
  const model = withAnswersPrinted(place, asks ? texts : null, () => {
    const made = newModel(readAnswers(options.answers ?? null, texts), options.answers ?? "these answers", table);
    accept(made);
    return made;
  });
  return { model, table };
}

/** Does the work; where it refuses what was just typed, the answers are printed as a command, so that none is typed again. */
function withAnswersPrinted<T>(path: string, typed: AnswerTexts | null, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (typed !== null && error instanceof InputError) {
      const words = QUESTIONS.flatMap((question) => {
        const text = typed[keyOf(question)];
        return text === undefined ? [] : [flagOf(question), text];
      });
      process.stderr.write(`Nothing was written. The same answers again, to be put right:\n`);
      process.stderr.write(`${printable(shellLine(["gainscape", "new", path, ...words]))}\n`);
    }
    throw error;
  }
}

const onTerminal = (): boolean => process.stdin.isTTY === true && process.stdout.isTTY === true;

function textsOf(options: Readonly<Record<string, unknown>>): AnswerTexts {
  const texts = QUESTIONS.flatMap((question) => {
    const text = options[optionName(question.option)];
    return typeof text === "string" ? [[keyOf(question), text] as const] : [];
  });
  return Object.fromEntries(texts);
}

/** "packCells", as commander calls "--pack-cells <n>". */
const optionName = (option: string): string =>
  (option.split(" ")[0] ?? "").replace(/^--/, "").replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());

function outcome(path: string, { airframe, measured }: NewModel, table: BenchTable | null): string[] {
  const { name, version, rotors, mass } = airframe;
  const sweep = firstTune();
  return [
    `${path}: model ${name} ${version}, ${rotors.length} rotors, ${quantityText(mass, "mass", "g")} with its pack.`,
    "Beside every number that was estimated stand how far it may be off and where it comes from.",
    ...(table === null ? [] : benchLines(table, Object.keys(measured))),
    "Next: look it through, then",
    `  ${shellLine(["gainscape", "check", path])}`,
    `  ${shellLine(["gainscape", "sweep", sweep, "--model", path])}`,
    `  ${shellLine(["gainscape", "card", sweep, "--model", path])}`,
  ];
}

function benchLines({ rows, unused }: BenchTable, keys: readonly string[]): string[] {
  const names: Readonly<Record<string, string>> = { noLoadCurrent: "no_load_current" };
  const quantities =
    keys.length === 0 ? "nothing more closely than the estimates" : keys.map((key) => names[key] ?? key).join(", ");
  const meters = `thrust ${share(METERS.thrust)}, torque ${share(METERS.torque)}, current ${share(METERS.current)}, volts ${share(METERS.volts)}`;
  return [
    `The bench table (${rows.length} rows) gives ${quantities}; its meters are taken to be good to ${meters}.`,
    ...(unused.length === 0 ? [] : [`Not used of it: ${unused.join(", ")}.`]),
  ];
}

const share = (value: number): string => `${100 * value} %`;
