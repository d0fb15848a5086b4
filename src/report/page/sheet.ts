// The sheet of the map's model: what was in it before anything was simulated, and what in it looks unlikely.
import type { Sheet } from "../../sheet/format.js";
import {
  bodyRows,
  controllerRows,
  delayRows,
  disturbanceRows,
  LEVELS,
  levelRows,
  type SheetRow,
  spreadsLine,
  togetherLine,
  warningsLine,
} from "../../words/sheet-words.js";
import { html, type Piece } from "./html.js";
import { scrolling } from "./scrolling.js";

const facts = (title: string, rows: readonly SheetRow[]): Piece => html`<div>
<h3>${title}</h3>
<dl class="provenance">${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>
</div>`;

const warnings = (sheet: Sheet): Piece => html`<p class="doubts"><strong>${warningsLine(sheet.warnings)}</strong></p>
${
  sheet.warnings.length === 0
    ? ""
    : html`<ul class="doubts">${sheet.warnings.map(({ key, text }) => html`<li><code>${key}</code>: ${text}.</li>`)}</ul>`
}`;

/** The section; nothing where the map lacks a part of its model. */
export const sheetSection = (sheet: Sheet | null): Piece =>
  sheet === null
    ? html``
    : html`
<section class="sheet" aria-labelledby="sheet">
<h2 id="sheet">Sheet of the model</h2>
<p class="lead">What follows from the model's numbers before anything is simulated. Hold it against the craft on the bench: a
number that you know to be different is where to look first.</p>
${warnings(sheet)}
${scrolling(
  "The craft in steady flight",
  html`<table class="measures">
<caption>Fresh pack, sea level</caption>
<thead><tr><th scope="col">Steady at</th>${LEVELS.map((level) => html`<th scope="col">${level}</th>`)}</tr></thead>
<tbody>${levelRows(sheet).map(([title, ...values]) => html`<tr><th scope="row">${title}</th>${values.map((value) => html`<td>${value}</td>`)}</tr>`)}</tbody>
</table>`,
)}
<div class="pair">${facts("Body", bodyRows(sheet))}${facts("Delays of the loop", delayRows(sheet))}${sheet.controller === undefined ? "" : facts("Controller in hover", controllerRows(sheet))}${facts("Noise and wash", disturbanceRows(sheet))}</div>
<p>${spreadsLine(sheet)}${sheet.together === undefined ? "" : ` ${togetherLine(sheet)}`}</p>
</section>`;

/** On the first screen, where something in the model looks unlikely. */
export const doubtLine = (sheet: Sheet | null): Piece | string =>
  sheet === null || sheet.warnings.length === 0
    ? ""
    : html`<p class="lead doubts"><strong>Before you believe this map:</strong> ${warningsLine(sheet.warnings)} ${sheet.warnings.map(({ key }, k) => html`${k === 0 ? "" : ", "}<code>${key}</code>`)}. See <a href="#sheet">the sheet of the model</a>.</p>`;
