// Trends in plain lines, for a terminal.
import { at } from "../../base/at.js";
import type { Trend } from "../../trend/trend.js";
import { printable } from "../../words/printable.js";
import {
  causeWords,
  creepWords,
  dayOf,
  extentWords,
  FOLLOWED_TITLES,
  findingWords,
  followedAxes,
  movedWords,
  ownLinesWords,
  unjudgedStagesWords,
} from "../../words/trend-words.js";

/** The finding, then step by step who moved what, then what creeps; control characters removed, no colour. */
export function renderTrendText(trend: Trend): string {
  const fit = printable(trend);
  return `${[
    `${findingWords(fit)}.`,
    `  ${extentWords(fit)}.`,
    ...fit.steps.flatMap((step) => stepLines(fit, step)),
    ...fit.creeps.map((creep) => `  Creeps: ${creepWords(fit, creep)}.`),
    ...[ownLinesWords(fit), unjudgedStagesWords(fit)].flatMap((line) => (line === null ? [] : [`  ${line}`])),
  ].join("\n")}\n`;
}

function stepLines(trend: Trend, step: Trend["steps"][number]): string[] {
  const since = dayOf(at(trend.stages, step.stage).first);
  const axes = followedAxes(trend).flatMap((axis) => {
    const words = movedWords(trend, step, axis);
    return words.length === 0 ? [] : [`    ${FOLLOWED_TITLES[axis]}: ${words.map(({ text }) => text).join("; ")}`];
  });
  return [`  ${since} ${causeWords(trend, step)}`, ...axes];
}
