// gainscape sweep: read, say what theory says, plan, run, reduce, report, write. What only the later steps need is loaded after
// the first answer is printed.
import { join } from "node:path";
import { problemAt } from "../base/document.js";
import { InputError, printable } from "../base/problem.js";
import { firstAnswerFor } from "../flow/first-answer.js";
import { outputFolder } from "../flow/output.js";
import { type SweepQuestion, sweepQuestion } from "../flow/request.js";
import { sweepLine } from "../flow/sweep-lines.js";
import type { FirstAnswer } from "../map/first-answer.js";
import { perDisplayUnit } from "../map/own-scale.js";
import type { OperatingPoints } from "../plan/operating-points.js";
import type { Share } from "../run/share.js";
import { firstAnswerLines } from "../words/first-answer-words.js";
import { loadModule } from "./load-module.js";
import { refuseChanges, refuseGridAlone } from "./option-values.js";
import { type RecordingOptions, refuseRecording } from "./recording.js";
import type { SimulatingOptions } from "./simulating.js";
import { inSweepFolder } from "./sweep-folder.js";

export interface SweepOptions extends SimulatingOptions, RecordingOptions {
  readonly model?: string;
  /** Each "key=value", set anew in the model. */
  readonly set?: readonly string[];
  readonly out?: string;
  readonly shard?: Share;
  /** The folder with every share of the grid, where the draws are shared out. */
  readonly grid?: string;
}

export async function sweepCommand(path: string, options: SweepOptions): Promise<number> {
  if (options.set !== undefined && options.trend !== undefined) refuseChanges("a record");
  refuseGridAlone(options);
  const question = sweepQuestion(path, options.model, options.set);
  if (options.shard !== undefined) return shareOfSweep(path, question, options.shard, options);
  return inSweepFolder(question, options, async (place) => {
    const first = printFirstAnswer(question, options);
    const { finishSweep } = await loadModule(import("./finish-sweep.js"));
    const { planFor } = await loadModule(import("../flow/plan.js"));
    const plan = planFor(question.model, question.sweep, undefined, first?.points);
    return finishSweep({ ...question, plan }, place, options, first?.answer);
  });
}

/** Null where nobody is to read it. On standard error, as progress is: standard output is for the outcome. */
function printFirstAnswer(
  { model, sweep }: SweepQuestion,
  { quiet, json, jsonLines }: SweepOptions,
): { readonly answer: FirstAnswer; readonly points: OperatingPoints } | null {
  if (quiet || json) return null;
  const first = firstAnswerFor(model, sweep);
  if (jsonLines) process.stdout.write(sweepLine({ record: "theory", ...first.answer }));
  else {
    const lines = firstAnswerLines(first.answer, perDisplayUnit(model.value.controller.scale)).map(printable);
    process.stderr.write(`${lines.join("\n  ")}\n`);
  }
  return first;
}

async function shareOfSweep(
  path: string,
  { sweep, model }: SweepQuestion,
  share: Share,
  options: SweepOptions,
): Promise<number> {
  if (sweep.value.changes !== undefined) throw noShards(sweep);
  refuseRecording(options);
  const { planFor } = await loadModule(import("../flow/plan.js"));
  const { shareCommand } = await loadModule(import("./share.js"));
  const plan = planFor(model, sweep);
  const folder = options.out ?? join(outputFolder(plan), "shards");
  const changes = options.set === undefined ? {} : { set: [...options.set] };
  const command = { name: "sweep", sweep: path, model: model.document.file, ...changes } as const;
  return shareCommand({ command, requests: [{ plan, model }], share, folder }, options);
}

/** Changed models are judged at the start of the model as it is, which no share knows. */
const noShards = ({ document }: SweepQuestion["sweep"]): InputError =>
  new InputError([
    problemAt(
      document,
      ["changes"],
      "a sweep with changes is simulated on one machine; leave --shard out, or the changes",
      "key",
    ),
  ]);
