// gainscape compare MODEL --set key=value: what a change of a model does to a tune, by theory alone. Nothing is written.
import { canonicalJson } from "../base/canonical.js";
import { printable } from "../base/problem.js";
import { changedModel, readModelToChange } from "../flow/changed-model.js";
import { whatIfChanged } from "../flow/what-if.js";
import { renderWhatIf } from "../report/index.js";
import { lowerFirst } from "../words/limit-words.js";
import { whatIfLine } from "../words/what-if-words.js";
import { EXIT } from "./exit.js";

export interface WhatIfOptions {
  /** Each "key=value". */
  readonly set?: readonly string[];
  readonly quiet?: boolean;
  readonly json?: boolean;
}

const WHAT_IF_FORMAT = "gainscape.what-if/1";

export function whatIfCommand(file: string, { set = [], json, quiet }: WhatIfOptions): number {
  const { model, changed, answer } = asked(file, set);
  const [before, after] = [model, changed].map(({ value: { name, version } }) => `${name} ${version}`) as [
    string,
    string,
  ];
  if (json) process.stdout.write(`${canonicalJson({ format: WHAT_IF_FORMAT, ...answer })}\n`);
  else if (!quiet) process.stdout.write(renderWhatIf(answer, { before, after }));
  return EXIT.done;
}

/** The answer in one line, to stand beside what is simulated. */
export const theoryLine = (file: string, set: readonly string[]): string =>
  printable(`By theory: ${lowerFirst(whatIfLine(asked(file, set).answer))}`.replaceAll("\u00a0", " "));

function asked(file: string, set: readonly string[]) {
  const model = readModelToChange(file);
  const changed = changedModel(model, set);
  return { model, changed, answer: whatIfChanged(model, changed) };
}
