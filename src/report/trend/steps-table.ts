// Who moved what, step by step, the latest first.
import { at } from "../../base/at.js";
import type { FollowedAxis, Step, Trend } from "../../trend/trend.js";
import { count } from "../../words/numbers.js";
import { causeWords, dayOf, FOLLOWED_TITLES, followedAxes, type Moved, movedWords } from "../../words/trend-words.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

const MOST_ROWS = 100;

export function stepsTable(trend: Trend, label: string): Piece {
  const { steps, stages } = trend;
  if (steps.length === 0)
    return html`<p>${stages.length === 1 ? "One map: a step needs two." : "No measure moved beyond the width to which its boundary is narrowed (boundary_tolerance)."}</p>`;
  const rows = steps.slice(-MOST_ROWS).reverse();
  const left = steps.length - rows.length;
  return html`${scrolling(
    label,
    html`<table class="steps"><thead><tr><th scope="col">What did it</th><th scope="col" class="text">Since</th>${followedAxes(trend).map((axis) => html`<th scope="col" class="text">${FOLLOWED_TITLES[axis]}</th>`)}</tr></thead>
<tbody>${rows.map((step) => stepRow(trend, step))}</tbody></table>`,
  )}
<p>A step is a move beyond the width to which a boundary is narrowed (boundary_tolerance): maps have no noise, so it is the model's or the program's.${left === 0 ? "" : ` ${count(left)} earlier steps are left out.`}</p>`;
}

function stepRow(trend: Trend, step: Step): Piece {
  const { first, before } = at(trend.stages, step.stage);
  const from = before === null ? "" : at(trend.stages, before).version;
  return html`<tr><th scope="row">${causeWords(trend, step)}<small>after ${from}</small></th><td class="text" data-column="Since">${dayOf(first)}</td>${followedAxes(trend).map((axis) => cell(trend, step, axis))}</tr>`;
}

function cell(trend: Trend, step: Step, axis: FollowedAxis): Piece {
  const moved = movedWords(trend, step, axis);
  const list = moved.length === 0 ? "nothing" : html`<ul>${moved.map(line)}</ul>`;
  return html`<td data-column="${FOLLOWED_TITLES[axis]}">${list}</td>`;
}

const line = ({ text, better }: Moved): Piece =>
  html`<li class="${better === null ? "neither" : better ? "better" : "worse"}">${text}</li>`;
