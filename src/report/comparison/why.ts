// Why it moved: what each change of the model did to boundary, margins and starting tune, by theory and beside the trials.
import type { Drift } from "../../compare/format.js";
import { whyBasis, whyLine, whyTable } from "../../words/why-words.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

/** The section is there also where theory has nothing to say, and says why. */
export function whyMoved(drift: Drift): Piece {
  const { why, model } = drift;
  const found = whyTable(drift);
  const line = whyLine(drift);
  const nothing =
    model.length === 0
      ? "Nothing changed in the model: what moved comes from the program or the sweep."
      : "Theory has no answer here: of what changed it reads nothing, or a map lacks parts of its model or its packs.";
  return html`
<section aria-labelledby="why">
<h2 id="why">Why it moved</h2>
${
  why == null || found === null
    ? html`<p>${nothing}</p>`
    : html`${line === null ? "" : html`<p class="because"><strong>${line}</strong></p>`}
<p class="lead">${whyBasis(why)} Margins are those of the tune above, at the worst throttle and pack; the start is moved so that it
keeps its margins of before.</p>
${scrolling(
  "Why it moved, change by change",
  html`<table class="why">
<thead><tr><td></td>${found.heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${found.rows.map(([change, ...cells]) => html`<tr><th scope="row">${change}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>`)}</tbody>
</table>`,
)}`
}
</section>`;
}
