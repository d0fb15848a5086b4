// gainscape trend: how each model moved over versions and dates, from the records its maps left: text, a page a model, and a list
// where there are several.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { printable } from "../base/problem.js";
import { shellLine } from "../base/shell-words.js";
import { checkOutput } from "../flow/output.js";
import { problemLines, TREND_INDEX, trendRow, trendsIn, writeTrendIndex, writeTrendPage } from "../flow/trend.js";
import { renderTrendText, type TrendRow } from "../report/index.js";
import type { Trend } from "../trend/trend.js";
import { drawingErrors } from "./drawing-errors.js";
import { EXIT } from "./exit.js";

export interface TrendOptions {
  readonly out?: string;
  readonly quiet?: boolean;
  readonly json?: boolean;
  readonly signal: AbortSignal;
}

/** Where pages go by default. */
const TREND_OUT = "reports/trend";

export async function trendCommand(places: readonly string[], options: TrendOptions): Promise<number> {
  const { out: folder = TREND_OUT, quiet, json, signal } = options;
  checkOutput(folder, { names: [TREND_INDEX] });
  const command = shellLine(["gainscape", "trend", ...places]);
  const source = await trendsIn(places);
  const alone = source.models === 1;
  const faults = drawingErrors();
  const rows: TrendRow[] = [];
  const problems: string[] = [];
  const trends: Trend[] = [];
  for await (const model of source.each()) {
    const wrong = problemLines(model);
    problems.push(...wrong);
    for (const line of wrong) process.stderr.write(`left out: ${printable(line)}\n`);
    const row = trendRow(model);
    if (row === null) continue;
    rows.push(row);
    const path = join(folder, alone ? TREND_INDEX : row.page);
    await faults.attempt(() => writeTrendPage(model, { path, command }, signal));
    faults.report();
    if (json) trends.push(...model.trends);
    else if (!quiet) process.stdout.write(`${model.trends.map(renderTrendText).join("")}  Page: ${printable(path)}\n`);
  }
  if (!alone) await faults.attempt(() => writeTrendIndex(rows, problems, folder, signal));
  faults.report();
  const page = join(folder, TREND_INDEX);
  if (json) process.stdout.write(`${canonicalJson({ trends, problems, page })}\n`);
  else if (!quiet && !alone) process.stdout.write(`All models: ${printable(page)}\n`);
  return faults.code(EXIT.done);
}
