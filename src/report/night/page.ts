// The night's front page: one row a pair, then what else there is to say. One file, no script, no network.
import { nightWords } from "../../words/night-words.js";
import { printable } from "../../words/printable.js";
import { cautions } from "../page/cautions.js";
import { head } from "../page/head.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";
import { type NightPair, nightCounts } from "./night.js";
import { nightRow, worstFirst } from "./rows.js";
import { NIGHT_STYLE } from "./style.js";

/** The page as one HTML text; the same comparisons give the same bytes. `command` makes it again. */
export async function renderNight(pairs: readonly NightPair[], command: string): Promise<string> {
  const fit = printable(pairs);
  const words = nightWords(nightCounts(fit));
  const bad = fit.some(({ drift }) => drift.outcome === "regression");
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(words, NIGHT_STYLE)}
<body>
<header class="masthead">
<p class="series">Gainscape gate</p>
<h1>${bad ? "A model moved too far" : "Every model holds"}</h1>
<p class="answer${bad ? " bad" : ""}">${words}.</p>
</header>
<main>
<section aria-labelledby="pairs">
<h2 id="pairs">Pair by pair</h2>
${scrolling(
  "Pairs",
  html`<table class="night">
<thead><tr><th scope="col">Pair</th><th scope="col">Outcome</th><th scope="col">Worst gate</th><th scope="col">Why</th></tr></thead>
<tbody>${worstFirst(fit).map(row)}</tbody>
</table>`,
)}
</section>
${notes(fit)}
${cautions()}
<section aria-labelledby="provenance">
<h2 id="provenance">Provenance</h2>
<p>The same command makes the same files, bit for bit:</p>
<pre><code>${printable(command)}</code></pre>
<p>Beside this page: <a href="summary.md">summary.md</a> for the page of a job, <a href="junit.xml">junit.xml</a> for its test results, <a href="gate.sarif">gate.sarif</a> for the lines of a pull request.</p>
</section>
</main>
<footer><p>A model's estimate on both sides. Fly the first pack after a change with care.</p></footer>
</body>
</html>
`;
  return page.toString();
}

function row(pair: NightPair): Piece {
  const { regression, sides, sweep, outcome, worst, why, unjudged } = nightRow(pair);
  return html`<tr class="${regression ? "regression" : "pass"}"><th scope="row"><a href="${encodeURI(pair.folder)}/index.html">${sides}</a> <small>${sweep}</small></th>
<td data-column="Outcome"><b><span aria-hidden="true">${regression ? "\u2715" : "\u2713"}</span> ${outcome}</b>${unjudged === null ? "" : html` <small>${unjudged}</small>`}</td>
<td data-column="Worst gate">${worst}</td>
<td data-column="Why">${why}</td></tr>`;
}

function notes(pairs: readonly NightPair[]): Piece | string {
  const lines = pairs.flatMap(({ drift }) => drift.notes);
  return lines.length === 0
    ? ""
    : html`<ul class="notes">${[...new Set(lines)].map((line) => html`<li>${line}</li>`)}</ul>`;
}
