// Gate by gate: what was seen, what is allowed, what the judge said, and why the gate stands.
import { GATES, type Gate } from "../../base/gates.js";
import type { Drift, GateResult } from "../../compare/format.js";
import { AXES, AXIS_TITLES } from "../../words/axes.js";
import { allowedWords, judgedWords, OUTCOME_WORDS, readingWords } from "../../words/gate-words.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

export const gatesTable = (drift: Drift): Piece => html`
<section aria-labelledby="gates">
<h2 id="gates">Gate by gate</h2>
<p class="lead">A gate that fails turns the nightly run red. A boundary is judged at
each D up to the last that held safe ground, wherever it lies in the grid on a side; beyond the grid nothing is measured.</p>
${scrolling(
  "Gates",
  html`<table class="gates">
<thead><tr><th scope="col">Gate</th><th scope="col" class="text">Allowed</th>${AXES.map((name) => html`<th scope="col" class="text">${AXIS_TITLES[name]}</th>`)}</tr></thead>
<tbody>${GATES.map((gate) => row(drift, gate))}</tbody>
</table>`,
)}
</section>`;

function row(drift: Drift, { id, title, why }: Gate): Piece {
  const results = drift.gates.filter(({ gate }) => gate === id);
  return html`<tr><th scope="row">${title} <small>${why}</small></th>
<td class="text allowed">${results[0] === undefined ? "" : allowedWords(results[0])}</td>${results.map((result) => cell(drift, result))}</tr>`;
}

const SIGNS: Readonly<Record<GateResult["outcome"], string>> = { pass: "\u2713", fail: "\u2715", skipped: "\u2013" };

const cell = (drift: Drift, result: GateResult): Piece => {
  const judged = judgedWords(result);
  return html`<td class="text gate ${result.outcome}" data-axis="${AXIS_TITLES[result.axis]}"><b><span aria-hidden="true">${SIGNS[result.outcome]}</span> ${OUTCOME_WORDS[result.outcome]}</b> <small>${readingWords(drift, result)}${judged === null ? "" : `; judged at ${judged}`}</small></td>`;
};
