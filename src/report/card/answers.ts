// Boxes for the answers to the card's questions.
import { AXIS_TITLES } from "../../words/axes.js";
import { withUnit } from "../../words/numbers.js";
import { html, type Piece } from "../page/html.js";
import type { Question } from "./questions.js";

export const blank = (title: string): Piece => html`<span class="blank">${title}</span>`;
export const tick = (title: string): Piece => html`<span class="tick">${title}</span>`;

/** One line for each axis of a step; motors and notes beside them. */
export const answers = (questions: readonly Question[]): Piece => html`<div class="observed">
<div>${questions.map(axisLine)}</div>
<div><p><b>Motors</b> ${["cool", "warm", "hot"].map(tick)}</p><p><span class="blank wide">Seen</span></p></div>
</div>`;

const axisLine = ({ axis, picture }: Question): Piece =>
  html`<p><b class="axis">${AXIS_TITLES[axis]}</b> set ${["P", "D"].map(blank)} ${blank("swings")} <span class="ask">died out</span> ${["yes", "no"].map(tick)}${
    picture === null
      ? html`<span class="ask">picture too calm to count</span>`
      : html`<span class="ask">than its ${withUnit(picture, "Hz")}</span> ${["slower", "same", "faster"].map(tick)}`
  }</p>`;
