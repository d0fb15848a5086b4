// Records of one model to its trends: one per question that was asked of it.
import { at } from "../base/at.js";
import type { TrendRecord } from "./format.js";
import { creepsOf, stepsOf, unjudgedStages } from "./judge.js";
import { seriesOf, yawSeries } from "./series.js";
import { stagesOf } from "./stages.js";
import type { Trend } from "./trend.js";

/** The trends of a model's records, the one with most records first. Records with one seal are one. */
export function trendsOf(records: readonly TrendRecord[]): Trend[] {
  const once = new Map(records.map((record) => [record.seal, record]));
  const byQuestion = new Map<string, TrendRecord[]>();
  for (const record of once.values()) {
    const list = byQuestion.get(record.question);
    if (list === undefined) byQuestion.set(record.question, [record]);
    else list.push(record);
  }
  return [...byQuestion.values()]
    .map(trendOf)
    .sort((a, b) => b.records - a.records || (a.question < b.question ? -1 : 1));
}

function trendOf(records: readonly TrendRecord[]): Trend {
  const stages = stagesOf(records);
  const axes = { roll: seriesOf("roll", stages), pitch: seriesOf("pitch", stages), yaw: yawSeries(stages) };
  const { airframe, question } = at(records, 0);
  return {
    airframe: airframe.name,
    sweeps: [...new Set(stages.flatMap(({ sweeps }) => sweeps))].sort(),
    question,
    records: records.length,
    stages,
    axes,
    steps: stepsOf(stages, axes),
    creeps: creepsOf(stages, axes),
    unjudged: unjudgedStages(stages, axes),
  };
}
