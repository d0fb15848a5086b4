// What else the flights said: units of gains, what a log cannot tell, what is odd about it, what would teach most next.
import type { FitFile } from "../../fit/format.js";
import { percents } from "../../words/fit/estimates.js";
import { unitWorth } from "../../words/fit/units.js";
import { keyBeside, numberTitle } from "../../words/number-words.js";
import { count } from "../../words/numbers.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

export function units({ units: all }: FitFile): Piece | string {
  if (all.length === 0) return "";
  return html`
<section aria-labelledby="units">
<h2 id="units">What one unit of a gain is worth</h2>
<p class="lead">A controller's own numbers have a scale of their own. From the log: what its commands did with the error, its sum and
the rate's slope.</p>
<ul class="plain">${all.map((unit) => html`<li><strong>${unitWorth(unit)}</strong> ${unit.why}</li>`)}</ul>
</section>`;
}

export const next = ({ next: steps }: FitFile): Piece => html`
<section aria-labelledby="next">
<h2 id="next">What would teach most next</h2>
<p class="lead">Always within the ground that is safe at the stated confidence, and never an oscillation that is kept up.</p>
${
  steps.length === 0
    ? html`<p>Nothing that could be flown safely would narrow a spread to speak of.</p>`
    : html`<ol class="next">${steps.map(({ text, key, narrows }, k) => html`<li><b>${k + 1}</b><span>${text} <small>${numberTitle(key)}${keyBeside(key) === "" ? "" : ` (${key})`}: spread narrower by ${percents(100 * narrows)}</small></span></li>`)}</ol>`
}
</section>`;

export function silent({ silent: all }: FitFile): Piece | string {
  if (all.length === 0) return "";
  return html`
<section aria-labelledby="silent">
<h2 id="silent">What the log could not tell</h2>
<dl class="provenance">${all.map(({ what, why }) => html`<div><dt>${what}</dt><dd>${why}</dd></div>`)}</dl>
</section>`;
}

/** More rows than these are folded away. */
const MOST_OPEN = 12;

export function remarks({ remarks: all }: FitFile): Piece | string {
  if (all.length === 0) return "";
  const table = scrolling(
    "Table of remarks",
    html`<table class="remarks">
<thead><tr><th scope="col">File</th><th scope="col">Row</th><th scope="col" class="text">Column</th><th scope="col" class="text">What is odd</th></tr></thead>
<tbody>${all.map(({ file, row, column, text }) => html`<tr><th scope="row">${file}</th><td>${row === null ? "all" : count(row)}</td><td class="text">${column ?? "whole rows"}</td><td class="text">${text}</td></tr>`)}</tbody>
</table>`,
  );
  return html`
<section aria-labelledby="remarks">
<h2 id="remarks">Remarks about the log</h2>
<p class="lead">Told, never healed in silence. Rows are lines of the file, the header being line 1.</p>
${all.length <= MOST_OPEN ? table : html`<details><summary>${count(all.length)} remarks</summary>${table}</details>`}
</section>`;
}
