// What moved on each axis: the shift of the boundary against D, safe ground lost and gained, both maps side by side.

import { axisMapSvg, type Size } from "../../charts/axis-map.js";
import { CHANGE_LINES, changeMapSvg } from "../../charts/change-map.js";
import { SHIFT_INTERVAL, type ShiftSize, shiftChartSvg } from "../../charts/shift-chart.js";
import { groundSwatch, lineSwatch } from "../../charts/swatches.js";
import type { AxisDrift } from "../../compare/format.js";
import type { OwnScale } from "../../map/own-scale.js";
import { AXES, type Axis } from "../../words/axes.js";
import { mapTitle, safeTitle, shiftTitle } from "../../words/chart-titles.js";
import { extremeWords, placeWords, signed, startChange, startInDrawsWords } from "../../words/drift-words.js";
import { count } from "../../words/numbers.js";
import { html, type Piece, raw } from "../page/html.js";
import { key } from "../page/maps.js";
import type { Compared } from "./compared.js";
import { shiftNumbers } from "./shift-tables.js";

const WIDE: Size = Object.freeze({ width: 520, height: 400, letters: 16 });
const NARROW: Size = Object.freeze({ width: 296, height: 300, letters: 14 });

export async function moved(compared: Compared): Promise<Piece> {
  const parts = await Promise.all(AXES.map((name) => axisPart(compared, name)));
  return html`
<section aria-labelledby="moved">
<h2 id="moved">What moved</h2>
<p class="lead">First where the oscillation sets in now against before, D by D; then the simulated points that
were safe and no longer are, or have become safe. A wedge stands where a boundary crossed the edge of the grid: it moved at
least that far.</p>
${changeKey(compared)}
${parts}
</section>`;
}

const entry = (sign: string, title: string, meaning: string): Piece =>
  html`<li>${raw(sign)}<span><b>${title}</b> ${meaning}</span></li>`;

const changeKey = ({ drift }: Compared): Piece => html`<div class="key">
<ul aria-label="Ground">
${entry(lineSwatch({ role: "ink", width: 1 }, true), "Kept", "Safe on both sides.")}
${entry(groundSwatch("hot"), "Lost", "Was safe, no longer is.")}
${entry(groundSwatch("loose"), "Gained", "Has become safe.")}
</ul>
<ul aria-label="Lines">
${entry(lineSwatch(CHANGE_LINES.after), "Now", "The sustained boundary of the candidate.")}
${entry(lineSwatch(CHANGE_LINES.before), "Before", "That of the base.")}
${entry(lineSwatch({ role: "warn", width: 2, dash: [7, 4] }), "Gate", "A fall below it fails, over the tinted D.")}
${
  AXES.every((name) => drift.axes[name].paired === undefined)
    ? ""
    : entry(lineSwatch(SHIFT_INTERVAL), "Interval", "90 of 100 pairs of draws lie within it.")
}
</ul>
</div>`;

async function axisPart(compared: Compared, name: Axis): Promise<Piece> {
  const { drift } = compared;
  const gate = drift.gates.find((one) => one.gate === "boundaryFall" && one.axis === name)?.threshold ?? null;
  const axis = drift.axes[name];
  const shift = (size: ShiftSize) => shiftChartSvg(axis, gate, drift, size);
  const changed = { ...compared, safe: axis.safe };
  const change = (size: Size) => changeMapSvg(changed, name, size);
  return html`<div class="pair">
${await figure(shiftTitle(name, axis), shiftWords(drift.own, axis), { wide: await shift({ ...WIDE }), narrow: await shift(NARROW) })}
${await figure(safeTitle(name, axis), safeWords(drift.own, axis), { wide: await change(WIDE), narrow: await change(NARROW) })}
</div>
${shiftNumbers(drift, name)}`;
}

function figure(title: string, words: string, { wide, narrow }: { wide: string; narrow: string }): Piece {
  return html`<figure class="axis-map">
<h3>${title}</h3>
<div class="wide" role="img" aria-label="${title}. ${words}">${raw(wide)}</div>
<div class="narrow" role="img" aria-label="${title}. ${words}">${raw(narrow)}</div>
<figcaption>${words}</figcaption>
</figure>`;
}

function shiftWords(own: OwnScale | null, { shift }: AxisDrift): string {
  const [low, high] = [extremeWords(own, shift, "lowest"), extremeWords(own, shift, "highest")];
  if (shift.lowest === null)
    return `The boundary lies ${low === "beyond the grid" ? "beyond the swept P" : "nowhere in the grid"} on both sides.`;
  return low === high ? `${low}, nowhere else.` : `Between ${low} and ${high}.`;
}

function safeWords(own: OwnScale | null, { safe, start, paired }: AxisDrift): string {
  const inDraws = startInDrawsWords(paired?.start);
  const share = safe.percent === null ? "" : ` (${signed(safe.percent)}\u00a0%)`;
  const points = `${count(safe.before)} safe points before, ${count(safe.after)} now${share}: ${count(safe.lost)} lost, ${count(safe.gained)} gained.`;
  return `${points} Starting tune ${placeWords(own, start.before)} before, ${placeWords(own, start.after)} now${startChange(start)}${inDraws === null ? "" : `; each side's start is ${inDraws}`}.`;
}

export async function bothMaps(compared: Compared): Promise<Piece> {
  const { base, candidate } = compared;
  const rows = await Promise.all(AXES.map((name) => mapPair(compared, name)));
  return html`
<section aria-labelledby="maps">
<h2 id="maps">Both maps</h2>
<p class="lead">${base.airframe.name} ${base.airframe.version} first, then ${candidate.airframe.name} ${candidate.airframe.version},
at the same scales.</p>
${key(candidate)}
${rows}
</section>`;
}

async function mapPair({ base, candidate }: Compared, name: Axis): Promise<Piece> {
  const one = async (side: "before" | "now"): Promise<Piece> => {
    const [map, other] = side === "before" ? [base, candidate] : [candidate, base];
    const draw = (size: Size) => axisMapSvg(map, name, size, [other]);
    const { safe } = map.axes[name];
    const title = `${mapTitle(map, name)}, ${map.airframe.name} ${map.airframe.version}`;
    const words = `Safe points: ${count(safe.flat().filter(Boolean).length)} of ${count(safe.flat().length)}.`;
    return figure(title, words, { wide: await draw(WIDE), narrow: await draw(NARROW) });
  };
  return html`<div class="pair">${await one("before")}${await one("now")}</div>`;
}
