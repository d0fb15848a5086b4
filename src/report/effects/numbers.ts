// Every number of every change, in a table.
import { measureOf } from "../../base/measures.js";
import type { AxisEffect, Difference, Effect, Effects, MeasureEffect } from "../../compare/effect-format.js";
import { AXES, AXIS_TITLES } from "../../words/axes.js";
import { signed } from "../../words/drift-words.js";
import { changeTitle } from "../../words/effect-words.js";
import { capital, lowerFirst } from "../../words/limit-words.js";
import { toThreeDigits, withUnit } from "../../words/numbers.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

const SAME = "the same";

export const effectsTable = ({ effects, delayFrequency }: Effects): Piece => html`
<section aria-labelledby="numbers">
<h2 id="numbers">Numbers</h2>
<p class="lead">From the model as it is to the changed one. “${capital(SAME)}” is what the grid, or the bisection of a boundary, cannot tell
from no change at all. Delay is the controller’s at ${withUnit(delayFrequency, "Hz")}, filters and latency together; boundaries are
the median over D; measures are those of one tune, the start of the model as it is or the sweep’s pinned one.</p>
${scrolling(
  "Numbers of every change",
  html`<table class="numbers">
<thead><tr><th scope="col">Change</th><th scope="col" class="text">Axis</th><th scope="col">Safe ground</th><th scope="col">Boundary</th><th scope="col" class="text">Pack by pack</th><th scope="col" class="text">Delay of P, D</th><th scope="col" class="text">At the same tune</th></tr></thead>
<tbody>${effects.map(rows)}</tbody>
</table>`,
)}
</section>`;

function rows(effect: Effect): Piece | string {
  const { found } = effect;
  if (found === null)
    return html`<tr><th scope="row">${changeTitle(effect)}</th><td class="absent" colspan="6">not in this model</td></tr>`;
  const { p, d } = found.delayMs;
  const delay = `${signed(round(p.changed - p.asItIs))} and ${signed(round(d.changed - d.asItIs))} ms`;
  return html`${AXES.map((name, k) => {
    const axis = found.axes[name];
    return html`<tr>${k === 0 ? html`<th scope="row" rowspan="${AXES.length}">${changeTitle(effect)}</th>` : ""}<td class="text">${AXIS_TITLES[name]}</td><td>${differenceText(axis.ground)}</td><td>${differenceText(axis.boundary)}</td><td class="text">${conditionsText(axis)}</td><td class="text">${k === 0 ? delay : ""}</td><td class="text">${tuneText(axis)}</td></tr>`;
  })}`;
}

/** Microseconds: below them a delay is rounding. */
const round = (ms: number): number => Number(ms.toFixed(3));

const differenceText = ({ percent, seen }: Difference): string =>
  percent === null ? "none" : seen ? `${signed(percent)} %` : SAME;

const conditionsText = ({ conditions }: AxisEffect): string =>
  conditions.map((one) => `${one.condition} ${differenceText(one)}`).join(", ");

function tuneText({ tune }: AxisEffect): string {
  if (tune === null) return "no tune that both have";
  const moved = tune.measures.filter(({ seen }) => seen);
  return moved.length === 0 ? SAME : moved.map(measureText).join(", ");
}

function measureText({ id, asItIs, changed }: MeasureEffect): string {
  const { title, unit } = measureOf(id);
  return `${lowerFirst(title)} ${toThreeDigits(asItIs)} \u2192 ${withUnit(changed, unitLabel(unit))}`;
}
