// A fit for a terminal: the answer, what to do, what became better known, what next, in some fifteen lines.
import { printable } from "../../base/problem.js";
import type { FitFile } from "../../fit/format.js";
import { AXES, AXIS_TITLES } from "../../words/axes.js";
import { answerWords, shareWords } from "../../words/fit/answer.js";
import { estimateWords, isLearnt, percents } from "../../words/fit/estimates.js";
import { bandTitle } from "../../words/fit/titles.js";
import { unitWorth } from "../../words/fit/units.js";
import { keyBeside, numberTitle } from "../../words/number-words.js";
import { count } from "../../words/numbers.js";

const NUMBERS = 4;
const INDENT = "  ";

/** Nothing in it moves a terminal's cursor. */
export function fitText(fit: FitFile): string {
  const lines = [
    answerWords(fit),
    ...fit.advice.map((line) => `${INDENT}${line}`),
    ...AXES.map((name) => `${INDENT}${bandTitle(name, fit.axes[name])}.${sharesOf(fit, name)}`),
    ...predicted(fit),
    ...learnt(fit),
    ...fit.units.filter(({ value }) => value !== null).map((unit) => `${INDENT}${unitWorth(unit)}`),
    ...silent(fit),
    ...remarks(fit),
    ...fit.next.slice(0, 1).map(({ text }) => `${INDENT}Next: ${text}`),
    `${INDENT}A model's estimate. Open space, nobody near; land at the first wobble that does not die out; pack off before you touch a propeller.`,
  ];
  return `${lines.map((line) => printable(line).replaceAll("\u00a0", " ")).join("\n")}\n`;
}

function sharesOf({ axes }: FitFile, name: (typeof AXES)[number]): string {
  const { tune } = axes[name];
  return tune === null
    ? ""
    : ` Old tune safe in ${shareWords(tune.safeShareAfter, tune.draws)}, before in ${shareWords(tune.safeShareBefore, tune.draws)}.`;
}

function predicted({ axes }: FitFile): string[] {
  const parts = AXES.flatMap((name) => {
    const { keptOut } = axes[name];
    if (keptOut === null) return [];
    const share = (one: number) => (one < 0 ? "nothing" : percents(100 * one));
    return [
      `${AXIS_TITLES[name].toLowerCase()} ${share(keptOut.explained)} (before ${share(keptOut.explainedBefore)})`,
    ];
  });
  return parts.length === 0 ? [] : [`${INDENT}Predicted of a part left out of the fit: ${parts.join(", ")}.`];
}

function learnt({ numbers }: FitFile): string[] {
  const most = numbers
    .filter(isLearnt)
    .sort((one, other) => other.learnt - one.learnt)
    .slice(0, NUMBERS);
  return most.map((number) => {
    const named = `${numberTitle(number.key)}${keyBeside(number.key) === "" ? "" : ` (${number.key})`}`;
    return `${INDENT}${named}: ${estimateWords(number.before, number)} before, now ${estimateWords(number.after, number)}.`;
  });
}

const silent = ({ silent: all }: FitFile): string[] =>
  all.length === 0 ? [] : [`${INDENT}Not told: ${all.map(({ what }) => what).join("; ")}.`];

const remarks = ({ remarks: all }: FitFile): string[] => {
  const [first] = all;
  if (first === undefined) return [];
  const place = `${first.file}${first.row === null ? "" : `, row ${count(first.row)}`}${first.column === null ? "" : `, column ${first.column}`}`;
  const more = all.length === 1 ? "" : ` (and ${count(all.length - 1)} more, on the page)`;
  return [`${INDENT}${place}: ${first.text}${more}`];
};
