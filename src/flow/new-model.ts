// A model from what its builder knows, written beside nothing: a file that is there stays.
import { basename, dirname, join } from "node:path";
import type { Airframe } from "../airframe/airframe.js";
import { parseAirframe } from "../airframe/resolve.js";
import { fileProblem, InputError } from "../base/problem.js";
import { quantityText } from "../base/units.js";
import type { Answers } from "../estimate/answers.js";
import { benched } from "../estimate/bench.js";
import { type BenchTable, benchTable } from "../estimate/bench-table.js";
import { restOf } from "../estimate/frame.js";
import { frameInput } from "../estimate/frame-text.js";
import { modelText } from "../estimate/model-text.js";
import { type Benched, narrower, numbersOf } from "../estimate/numbers.js";
import { isFile } from "../files/folder.js";
import { isTaken } from "../files/probe.js";
import { readTable } from "../files/table.js";
import { writeNew } from "../files/write.js";
import { readYaml } from "../files/yaml.js";
import { checkOutput } from "./output.js";
import { shippedSweep } from "./shipped.js";

/** InputError where the file is there already, or could not be written. */
export function checkNew(path: string): void {
  if (isTaken(path)) throw new InputError([fileProblem(path, TAKEN)]);
  checkOutput(dirname(path), { names: [basename(path)] });
}

const TAKEN = "is there already, and nothing is overwritten; choose another name";

export const readBench = (path: string): BenchTable => benchTable(readTable(path));

export interface NewModel {
  readonly text: string;
  readonly airframe: Airframe;
  /** What the bench table says, by its key; the rest stays estimated. */
  readonly measured: Benched;
}

/**
 * The model of the answers as text, and as every command will read it. `from` names the answers in messages. InputError
 * where no craft can be what they say.
 */
export function newModel(answers: Answers, from: string, table: BenchTable | null = null): NewModel {
  const bench = table === null ? {} : benched(table, answers.propeller.diameter);
  const numbers = numbersOf(answers);
  const frame = frameInput(answers, numbers);
  const rest = restOf(frame);
  if (rest < LEAST_REST * frame.weight) {
    const taken = quantityText(frame.weight - rest, "mass", "g");
    const message = `motors and propellers weigh ${taken} of ${quantityText(frame.weight, "mass", "g")}, which leaves too little for a frame; is the weight without pack that of the whole craft, and the motor's that of one?`;
    throw new InputError([fileProblem(from, message)]);
  }
  const text = modelText(answers, bench);
  return { text, airframe: parsedModel(text, from), measured: narrower(bench, numbers) };
}

const LEAST_REST = 0.1; // of the weight without pack: the lightest frames with their electronics weigh more

/** What every command will make of the text. What it refuses no answer is to blame for alone, so the answers are named. */
function parsedModel(text: string, from: string): Airframe {
  try {
    return parseAirframe(readYaml(from, text));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const problems = error.problems.map(({ path, message }) =>
      fileProblem(from, `they make a model that is refused: ${path}: ${message}`),
    );
    throw new InputError(problems, error.more);
  }
}

const SCHEMA_LINE = /^# yaml-language-server:[^\n]*\n/;

/** Writes the model. InputError where the file has come into being meanwhile. */
export function writeModel(text: string, path: string): void {
  const schema = "schema/airframe-1.schema.json";
  const line = isFile(join(dirname(path), schema)) ? `# yaml-language-server: $schema=${schema}\n` : "";
  if (!writeNew(path, line + text.replace(SCHEMA_LINE, ""))) throw new InputError([fileProblem(path, TAKEN)]);
}

const FIRST_TUNE = "sweeps/first-tune.yaml";

/** The sweep to begin with: the one below the working folder, else the one that came with the program. */
export const firstTune = (): string => (isFile(FIRST_TUNE) ? FIRST_TUNE : shippedSweep("first-tune.yaml"));
