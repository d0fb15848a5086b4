// Controls and readouts of the maps that the page's script fills; hidden until it runs.
import { measureOf } from "../../base/measures.js";
import type { Axis } from "../../words/axes.js";
import { MAPPED } from "../../words/measure-words.js";
import { html, type Piece } from "./html.js";

const choice = (value: string, title: string, first: boolean): Piece =>
  html`<label><input type="radio" name="shown" value="${value}"${first ? html` checked` : ""}> ${title}</label>`;

export const mapSwitch = (): Piece => html`<div id="map-switch" class="switch" hidden>
<fieldset><legend>Show</legend>
${choice("verdict", "Verdict", true)}${MAPPED.map((id) => choice(id, measureOf(id).title, false))}
</fieldset>
<label>Under <select id="map-under"><option value="">everything, worst case</option></select></label>
<p id="map-words" class="status"></p>
<p id="map-status" class="status" role="status"></p>
</div>`;

/** Where the readout of one axis goes. */
export const readoutPlace = (name: Axis): Piece => html`<div class="readout" id="read-${name}" hidden></div>`;
