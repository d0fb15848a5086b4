// The comparison of two maps as a single file that opens from disk, with no script and no network.
import type { Drift } from "../../compare/format.js";
import { outcomeWords, sidesWords, unjudgedWords } from "../../words/drift-words.js";
import { printable, printableMap } from "../../words/printable.js";
import { cautions } from "../page/cautions.js";
import { head } from "../page/head.js";
import { html, type Piece } from "../page/html.js";
import { causes, modelTable } from "./causes.js";
import type { Compared } from "./compared.js";
import { gatesTable } from "./gates-table.js";
import { bothMaps, moved } from "./moved.js";
import { origin } from "./origin.js";
import { pinnedPanels } from "./pinned-panel.js";
import { levelsTable } from "./shift-tables.js";
import { stripsTable } from "./strips-table.js";
import { COMPARISON_STYLE } from "./style.js";
import { whyMoved } from "./why.js";

const CHAPTERS: readonly (readonly [id: string, title: string])[] = [
  ["pinned", "Pinned tune"],
  ["why", "Why"],
  ["gates", "Gates"],
  ["moved", "What moved"],
  ["levels", "Throttle and pack"],
  ["strips", "Yaw and I"],
  ["maps", "Both maps"],
  ["causes", "Verdicts"],
  ["model", "Model"],
  ["cautions", "Cautions"],
  ["provenance", "Provenance"],
];

function masthead(drift: Drift): Piece {
  const { base, candidate, sweep, outcome } = drift;
  const unjudged = unjudgedWords(drift);
  const chapters = CHAPTERS.filter(([id]) => id !== "strips" || drift.strips !== undefined);
  return html`<header class="masthead">
<p class="series">Gainscape comparison</p>
<h1>${sidesWords(drift)}</h1>
<p class="sub">${sweep.title}. Before: ${base.airframe.version}, ${base.airframe.title}. Now: ${candidate.airframe.version}, ${candidate.airframe.title}.</p>
<p class="sub"><span class="outcome ${outcome}">${outcomeWords(drift)}</span>${unjudged === null ? "" : ` ${unjudged}.`}</p>
<nav aria-label="Chapters"><ul>${chapters.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
</header>`;
}

const notes = ({ notes: lines }: Drift): Piece | string =>
  lines.length === 0 ? "" : html`<ul class="notes">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;

/** The page as one HTML text; the same maps give the same bytes. */
export async function renderComparison(compared: Compared): Promise<string> {
  const [base, candidate] = [printableMap(compared.base), printableMap(compared.candidate)];
  const fit = { drift: printable(compared.drift), base, candidate };
  const { drift } = fit;
  const [first, figures, maps] = await Promise.all([pinnedPanels(fit), moved(fit), bothMaps(fit)]);
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(`${sidesWords(drift)}: ${outcomeWords(drift)}`, COMPARISON_STYLE)}
<body>
${masthead(drift)}
<main>
${notes(drift)}
${first}
${whyMoved(drift)}
${gatesTable(drift)}
${figures}
${levelsTable(drift)}
${stripsTable(drift)}
${maps}
${causes(fit)}
${modelTable(drift)}
${cautions()}
${origin(drift)}
</main>
<footer><p>A model's estimate on both sides. Fly the first pack after a change with care.</p></footer>
</body>
</html>
`;
  return page.toString();
}
