// Boxes for the answers to the card's questions.
import { AXIS_TITLES } from "../../words/axes.js";
import { withUnit } from "../../words/numbers.js";
import { html, type Piece } from "../page/html.js";
import type { Question } from "./questions.js";

export const blank = (title: string): Piece => html`<span class="blank">${title}</span>`;
export const tick = (title: string): Piece => html`<span class="tick">${title}</span>`;

/** One line for each axis of a step. `asPrinted`: the gains stand fast, nothing else can have been set. */
export const answers = (questions: readonly Question[], asPrinted: boolean): Piece =>
  html`<div class="observed">${questions.map((question) => axisLine(question, asPrinted))}</div>`;

/** Of the whole step. */
export const motors = (): Piece => html`<p class="motors"><b>Motors</b> ${["cool", "warm", "hot"].map(tick)}</p>`;

const axisLine = ({ axis, counted, picture }: Question, asPrinted: boolean): Piece =>
  html`<p><b class="axis">${AXIS_TITLES[axis]}</b>${asPrinted ? "" : html` set ${["P", "D"].map(blank)}`} ${
    counted ? blank("swings") : ""
  } <span class="ask">died out</span> ${["yes", "no"].map(tick)}${
    picture === null
      ? ""
      : html`<span class="ask">than ${withUnit(picture, "Hz")}</span> ${["slower", "same", "faster"].map(tick)}`
  }<span class="blank wide">Seen</span></p>`;
