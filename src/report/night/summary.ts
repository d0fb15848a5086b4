// The gate's summary as Markdown, for the page of a CI job: short, with links to the rest.
import { nightWords } from "../../words/night-words.js";
import { printable } from "../../words/printable.js";
import { type Cell, escaped, table } from "../markdown-parts.js";
import { type NightPair, nightCounts } from "./night.js";
import { nightRow, worstFirst } from "./rows.js";

const HEAD = ["Pair", "Sweep", "Outcome", "Worst gate", "Why", "More"];

/** One row a pair, regressions first; links lead from the gate's folder. */
export function renderNightMarkdown(pairs: readonly NightPair[]): string {
  const fit = printable(pairs);
  const rows = worstFirst(fit).map((pair): Cell[] => {
    const { regression, sides, sweep, outcome, worst, why, unjudged } = nightRow(pair);
    const said = unjudged === null ? outcome : `${outcome}; ${unjudged}`;
    const more = { link: "page", to: `${pair.folder}/index.html` };
    return [sides, sweep, regression ? { strong: said } : said, worst, why, more];
  });
  const notes = [...new Set(fit.flatMap(({ drift }) => drift.notes))].map((note) => `> ${escaped(note)}\n`);
  return `## ${escaped(nightWords(nightCounts(fit)))}

${table(HEAD, rows)}${notes.length === 0 ? "" : `\n${notes.join("\n")}`}`;
}
