// The map compared with theory: how the boundary agrees, what hard manoeuvres take from it, what to measure first.

import { manoeuvreLinesSvg } from "../../charts/manoeuvre-lines.js";
import type { StabilityMap } from "../../map/format.js";
import { type OwnScale, ownScale } from "../../map/own-scale.js";
import type { ParameterEffect, Sensitivity, TheoryBoundary } from "../../map/theory-format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { manoeuvreTitle } from "../../words/chart-titles.js";
import { withUnit } from "../../words/numbers.js";
import { agreementWords, decidesWords, disagreementLine, manoeuvreWords, stepWords } from "../../words/theory-words.js";
import { endPiece, settingPiece } from "./gain.js";
import { html, type Piece, raw } from "./html.js";
import { linesKey } from "./lines-key.js";
import { scrolling } from "./scrolling.js";

const WIDE = Object.freeze({ width: 520, height: 300 });
const NARROW = Object.freeze({ width: 296, height: 260 });

async function figure(map: StabilityMap, name: Axis): Promise<Piece> {
  const [wide, narrow] = await Promise.all([WIDE, NARROW].map((size) => manoeuvreLinesSvg(map, name, size)));
  const words = manoeuvreWords(map, name);
  const label = `Sustained boundary of ${name} after a small nudge and after hard manoeuvres, worst throttle and pack. ${words}`;
  return html`<figure class="axis-map lines">
<h3>${manoeuvreTitle(map, name)}</h3>
<div class="wide" role="img" aria-label="${label}">${raw(wide ?? "")}</div>
<div class="narrow" role="img" aria-label="${label}">${raw(narrow ?? "")}</div>
<figcaption>${words} At the worst throttle and pack.</figcaption>
</figure>`;
}

const change = (value: number | null): string =>
  value === null ? "gone" : `${value > 0 ? "+" : ""}${withUnit(value, "%")}`;

const effectRow = ({ title, key, more, less }: ParameterEffect): Piece =>
  html`<tr><th scope="row">${title} <small>${key}</small></th><td>${change(more)}</td><td>${change(less)}</td></tr>`;

function sensitivityTable(
  own: OwnScale | null,
  name: Axis,
  { d, p, throttle, condition, effects }: Sensitivity,
): Piece {
  return scrolling(
    `What moves the boundary of ${name}`,
    html`<table>
<caption>${AXIS_TITLES[name]}: what moves P ${endPiece(own, "p", p)} at D ${settingPiece(own, "d", d)} (${withUnit(throttle, "%")} throttle, ${condition})</caption>
<thead><tr><th scope="col">Parameter</th><th scope="col">10 % more</th><th scope="col">10 % less</th></tr></thead>
<tbody>${effects.map(effectRow)}</tbody>
</table>`,
  );
}

function disagreements(map: StabilityMap): Piece {
  const lines = AXES.flatMap((name) =>
    (map.axes[name].boundary.theory?.agreement?.disagreements ?? []).map(
      (end) => `${AXIS_TITLES[name]}, ${disagreementLine(ownScale(map), end)}`,
    ),
  );
  if (lines.length === 0) return html``;
  return html`<h3>Where theory and trials part</h3><ul class="assumptions">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
}

interface AxisTheory {
  readonly name: Axis;
  readonly axisTheory: TheoryBoundary;
}

/** Nothing where the map knows what each number is worth: that is told with its draws. */
const measureFirst = (map: StabilityMap, axes: readonly AxisTheory[]): Piece | string =>
  map.uncertainty === undefined
    ? html`<h3>What to measure first</h3>
<p>How far the boundary moves when one number of the model is off by a tenth and all else is held, by theory; the three
strongest of each axis.</p>
<div class="pair">${axes.map(({ name, axisTheory }) =>
        axisTheory.sensitivity === null
          ? html`<p>${AXIS_TITLES[name]}: theory finds no P at which it gives out near the swept range.</p>`
          : sensitivityTable(ownScale(map), name, axisTheory.sensitivity),
      )}</div>
`
    : "";

/** The section; nothing where the map holds no theory. */
export async function theory(map: StabilityMap): Promise<Piece> {
  const axes = AXES.flatMap((name) => {
    const axisTheory = map.axes[name].boundary.theory;
    return axisTheory === undefined ? [] : [{ name, axisTheory }];
  });
  if (axes.length === 0) return html``;
  const figures = await Promise.all(axes.map(({ name }) => figure(map, name)));
  const own = ownScale(map);
  return html`
<section class="against" aria-labelledby="theory">
<h2 id="theory">Against theory</h2>
<p class="lead">The same loop made linear, without any trial, must give out where a small nudge stops dying out. Circles
(\u25cb) are theory, lines are trials.</p>
<ul class="assumptions">${axes.map(({ name, axisTheory }) => html`<li>${agreementWords(own, name, axisTheory)} ${stepWords(own, axisTheory)} ${decidesWords(map.axes[name])}</li>`)}</ul>
${disagreements(map)}
<h3>After hard manoeuvres</h3>
<p>A small nudge never meets a limit. A hard stop, a throttle burst or rough air does: a motor at idle or at full duty pushes
weaker and later than it is asked to, noise and gusts keep feeding the swing, and what a nudge would leave dying stays alive.
There, too, a swing that loses less than a quarter of its width in a second already counts as sustained. So this boundary can
lie lower, and where it does, it is the one that counts.</p>
${linesKey(map)}
<div class="pair">${figures}</div>
${measureFirst(map, axes)}</section>`;
}
