// Gate by gate: what was seen, what is allowed, what the judge said, and why the gate stands.
import { type Gate, MAP_GATES, STRIP_GATES } from "../../base/gates.js";
import type { Drift, GateResult } from "../../compare/format.js";
import { AXIS_TITLES } from "../../words/axes.js";
import { allowedWords, isOfStrip, judgedWords, OUTCOME_WORDS, readingWords } from "../../words/gate-words.js";
import { stripTitle } from "../../words/strip-words.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

export const gatesTable = (drift: Drift): Piece => html`
<section aria-labelledby="gates">
<h2 id="gates">Gate by gate</h2>
<p class="lead">A gate that fails turns the nightly run red. A boundary is judged at
each D up to the last that held safe ground, wherever it lies in the grid on a side; beyond the grid nothing is measured.</p>
${scrolling(
  "Gates",
  table(
    MAP_GATES,
    columnsOf(drift.gates, (result) => !isOfStrip(result)),
    drift,
  ),
)}${ofStrips(drift)}
</section>`;

/** Nothing where neither side judged a strip. */
function ofStrips(drift: Drift): Piece | string {
  const columns = columnsOf(drift.gates, isOfStrip);
  return columns.length === 0 ? "" : scrolling("Gates on yaw and I", table(STRIP_GATES, columns, drift));
}

/** The results of one axis, or of one gain of a strip. */
type Column = readonly GateResult[];

function columnsOf(gates: Drift["gates"], wanted: (result: GateResult) => boolean): Column[] {
  const results = gates.filter(wanted);
  return [...new Set(results.map(({ axis }) => axis))].map((axis) => results.filter((one) => one.axis === axis));
}

const titleOf = (result: GateResult): string =>
  isOfStrip(result) ? stripTitle(result.axis) : AXIS_TITLES[result.axis];

const table = (gates: readonly Gate[], columns: readonly Column[], drift: Drift): Piece => html`<table class="gates">
<thead><tr><th scope="col">Gate</th><th scope="col" class="text">Allowed</th>${columns.map(([first]) => html`<th scope="col" class="text">${first === undefined ? "" : titleOf(first)}</th>`)}</tr></thead>
<tbody>${gates.map((gate) => row(drift, gate, columns))}</tbody>
</table>`;

function row(drift: Drift, { id, title, why }: Gate, columns: readonly Column[]): Piece {
  const results = columns.flatMap((column) => column.find(({ gate }) => gate === id) ?? []);
  return html`<tr><th scope="row">${title} <small>${why}</small></th>
<td class="text allowed">${results[0] === undefined ? "" : allowedWords(results[0])}</td>${results.map((result) => cell(drift, result))}</tr>`;
}

const SIGNS: Readonly<Record<GateResult["outcome"], string>> = { pass: "\u2713", fail: "\u2715", skipped: "\u2013" };

const cell = (drift: Drift, result: GateResult): Piece => {
  const judged = judgedWords(result);
  return html`<td class="text gate ${result.outcome}" data-axis="${titleOf(result)}"><b><span aria-hidden="true">${SIGNS[result.outcome]}</span> ${OUTCOME_WORDS[result.outcome]}</b> <small>${readingWords(drift, result)}${judged === null ? "" : `; judged at ${judged}`}</small></td>`;
};
