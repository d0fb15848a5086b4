// Files of records to trends, and trends to pages: one file after the other, so that a thousand nights of a hundred models fit in memory.
import { join } from "node:path";
import { modelFileName } from "../base/folder-name.js";
import { fileProblem, InputError, type Problem, problemLine } from "../base/problem.js";
import { renderTrendIndex, renderTrendPage, type TrendRow } from "../report/index.js";
import { trendsOf } from "../trend/follow.js";
import type { Trend } from "../trend/trend.js";
import { dayOf, findingWords } from "../words/trend-words.js";
import { type Drawing, drawInTurn } from "./drawing.js";
import { type RecordFile, readRecords, recordFiles } from "./trend-records.js";

/** What the records of one model say. */
export interface ModelTrends {
  readonly airframe: string | null; // null: no record tells
  readonly files: readonly string[];
  /** One per question, the one with most records first. */
  readonly trends: readonly Trend[];
  readonly problems: readonly Problem[];
  readonly more: number;
}

/** The records of several models, each read only when its turn comes. */
export interface TrendSource {
  readonly models: number;
  readonly each: () => AsyncGenerator<ModelTrends>;
}

/** The trends in the places, model by model. InputError where they hold no record at all. */
export async function trendsIn(places: readonly string[]): Promise<TrendSource> {
  const byModel = new Map<string, string[]>();
  const unread: RecordFile[] = [];
  for (const file of new Set(places.flatMap(recordFiles))) {
    const head = await readRecords(file, 1);
    if (head.airframe === null) unread.push(head);
    else byModel.set(head.airframe, [...(byModel.get(head.airframe) ?? []), file]);
  }
  if (byModel.size === 0) throw new InputError(unread.flatMap(noRecords));
  return { models: byModel.size, each: () => modelByModel(byModel, unread) };
}

async function* modelByModel(
  byModel: ReadonlyMap<string, readonly string[]>,
  unread: readonly RecordFile[],
): AsyncGenerator<ModelTrends> {
  for (const head of unread)
    yield { airframe: null, files: [head.file], trends: [], problems: noRecords(head), more: head.more };
  for (const airframe of [...byModel.keys()].sort()) {
    const read: RecordFile[] = [];
    for (const file of byModel.get(airframe) ?? []) read.push(await readRecords(file));
    yield {
      airframe,
      files: read.map(({ file }) => file),
      trends: trendsOf(read.flatMap(({ records }) => records)),
      problems: read.flatMap(({ problems }) => problems),
      more: read.reduce((sum, { more }) => sum + more, 0),
    };
  }
}

/** What is wrong with a file that holds no record. */
const noRecords = ({ file, problems }: Pick<RecordFile, "file" | "problems">): readonly Problem[] =>
  problems.length > 0 ? problems : [fileProblem(file, "holds no record; gainscape record writes them")];

/** A problem line per line left out, and how many more there are. */
export function problemLines({ files, problems, more }: ModelTrends): string[] {
  const lines = problems.map(problemLine);
  return more === 0 ? lines : [...lines, `${files.join(", ")}: ${more} more lines that are no records`];
}

/** The page of a model alone, or the list of several. */
export const TREND_INDEX = "index.html";

/** The page of a model beside others. */
const trendPageName = (airframe: string): string => `${modelFileName(airframe)}.html`;

/** The model's page; throws DrawingError where it could not be drawn. */
export async function writeTrendPage(
  model: ModelTrends,
  { path, command }: { readonly path: string; readonly command: string },
  signal?: AbortSignal,
): Promise<void> {
  const { trends, files } = model;
  const drawing: Drawing = {
    path,
    draw: () => renderTrendPage({ trends, files, problems: problemLines(model), command }),
  };
  await drawInTurn([drawing], "", signal);
}

/** A model's row in the list of all; null where it has no trend. */
export function trendRow({ airframe, trends }: ModelTrends): TrendRow | null {
  const [first] = trends;
  if (airframe === null || first === undefined) return null;
  const days = trends.flatMap(({ steps, stages }) => steps.map(({ stage }) => dayOf(stages[stage]?.first ?? "")));
  const total = (of: (trend: Trend) => number) => trends.reduce((sum, trend) => sum + of(trend), 0);
  return {
    airframe,
    finding: findingWords(first),
    lastStep: days.reduce<string | null>((last, day) => (last === null || day > last ? day : last), null),
    steps: days.length,
    creeps: total(({ creeps }) => creeps.length),
    records: total(({ records }) => records),
    page: trendPageName(airframe),
  };
}

/** The list of all models; throws DrawingError where it could not be drawn. */
export async function writeTrendIndex(
  rows: readonly TrendRow[],
  problems: readonly string[],
  folder: string,
  signal?: AbortSignal,
): Promise<string> {
  const path = join(folder, TREND_INDEX);
  const latest = [...rows].sort((a, b) =>
    (a.lastStep ?? "") < (b.lastStep ?? "") ? 1 : (a.lastStep ?? "") > (b.lastStep ?? "") ? -1 : 0,
  );
  await drawInTurn([{ path, draw: () => renderTrendIndex(latest, problems) }], "", signal);
  return path;
}
