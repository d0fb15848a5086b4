// What a change of a model does to a tune, for a terminal: the answer in the first line.
import { printable } from "../base/problem.js";
import type { WhatIfAnswer } from "../sheet/what-if-answer.js";
import { basisLine, cautionLine, marginLines, whatIfLine, whatIfRows } from "../words/what-if-words.js";
import { columns } from "./columns.js";

/** `craft`: name and version of both. */
export function renderWhatIf(
  answer: WhatIfAnswer,
  { before, after }: { readonly before: string; readonly after: string },
): string {
  const lines = [
    whatIfLine(answer),
    `${after}, beside ${before}.`,
    ...marginLines(answer),
    "",
    ...columns([["", "before", "after"], ...whatIfRows(answer)]),
    "",
    basisLine(answer),
    cautionLine(answer),
  ];
  return `${lines.map((line) => printable(line.replaceAll("\u00a0", " "))).join("\n")}\n`;
}
