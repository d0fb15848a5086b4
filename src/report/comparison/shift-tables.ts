// The same shifts in numbers: per throttle level and pack state, and D by D.
import type { AxisDrift, Drift, LevelShift } from "../../compare/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { extremeWords, levelWords, shiftWords } from "../../words/drift-words.js";
import { endPiece, gainTitle, settingPiece } from "../page/gain.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

export const levelsTable = (drift: Drift): Piece => html`
<section aria-labelledby="levels">
<h2 id="levels">Throttle and pack</h2>
<p class="lead">The lowest and the highest shift of the sustained boundary over all D, at each throttle and pack state: the
worst case over the scripts simulated there.</p>
${scrolling(
  "Shift at each throttle and pack",
  html`<table>
<thead><tr><th scope="col">Throttle, pack</th>${AXES.map((name) => html`<th scope="col">${AXIS_TITLES[name]}, lowest</th><th scope="col">${AXIS_TITLES[name]}, highest</th>`)}</tr></thead>
<tbody>${levelsOf(drift).map((words) => levelRow(drift, words))}</tbody>
</table>`,
)}
</section>`;

const levelsOf = ({ axes }: Drift): string[] => [
  ...new Set(AXES.flatMap((name) => axes[name].byLevel.map(levelWords))),
];

function levelRow({ axes, own }: Drift, words: string): Piece {
  const cells = (level: LevelShift | undefined) =>
    level === undefined
      ? html`<td class="absent">not simulated</td><td></td>`
      : html`<td>${extremeWords(own, level, "lowest")}</td><td>${extremeWords(own, level, "highest")}</td>`;
  return html`<tr><th scope="row">${words}</th>${AXES.map((name) => cells(axes[name].byLevel.find((one) => levelWords(one) === words)))}</tr>`;
}

/** D by D, folded away: the figure says it first. */
export function shiftNumbers(drift: Drift, name: Axis): Piece {
  const { own, units } = drift;
  const { shift }: AxisDrift = drift.axes[name];
  const end = (value: number | null) => html`<td>${value === null ? "" : endPiece(own, "p", value)}</td>`;
  return html`<details><summary>${AXIS_TITLES[name]}, D by D</summary>
${scrolling(
  `Shift of ${name} at each D`,
  html`<table>
<thead><tr><th scope="col">${gainTitle(own, "d", units.d)}</th><th scope="col">${gainTitle(own, "p", units.p, "P before")}</th><th scope="col">P now</th><th scope="col">Shift</th></tr></thead>
<tbody>${shift.perD.map((one) => html`<tr><th scope="row">${settingPiece(own, "d", one.d)}</th>${end(one.base)}${end(one.candidate)}<td>${shiftWords(one)}</td></tr>`)}</tbody>
</table>`,
)}
</details>`;
}
