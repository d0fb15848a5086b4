// Yaw and I on both sides: the gain to take and the range that passes.
import type { Drift } from "../../compare/format.js";
import { STRIPS_LEAD, stripRows } from "../../words/strip-drift-words.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

/** Nothing where a side's sweep judged neither. */
export function stripsTable(drift: Drift): Piece | string {
  const rows = stripRows(drift);
  if (rows.length === 0) return "";
  return html`
<section aria-labelledby="strips">
<h2 id="strips">Yaw and I</h2>
<p class="lead">${STRIPS_LEAD}</p>
${scrolling(
  "Yaw and I on both sides",
  html`<table>
<thead><tr><th scope="col">Gain</th><th scope="col" class="text">Before</th><th scope="col" class="text">Now</th><th scope="col">Gain moved</th><th scope="col">Upper end moved</th></tr></thead>
<tbody>${rows.map(
    ({ gain, before, after, choice, upperEnd }) =>
      html`<tr><th scope="row">${gain}</th><td class="text">${before}</td><td class="text">${after}</td><td>${choice}</td><td>${upperEnd}</td></tr>`,
  )}</tbody>
</table>`,
)}
</section>`;
}
