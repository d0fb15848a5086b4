// What limits each side of the starting tune, and what to expect when flying it, as tables.
import { ABSENCES, MEASURES, type Measure } from "../../base/measures.js";
import type { StabilityMap, StartingTune } from "../../map/format.js";
import { ownScale } from "../../map/own-scale.js";
import { wantedMargins } from "../../map/wanted-margins.js";
import { AXES, AXIS_TITLES, type Axis, absentAtStart } from "../../words/axes.js";
import { capital, limitingCaseWords, limitWords, reach, SIDES, type Side } from "../../words/limit-words.js";
import { times, toThreeDigits } from "../../words/numbers.js";
import { unitLabel } from "../../words/units.js";
import { endPiece, placePiece } from "./gain.js";
import { html, type Piece } from "./html.js";
import { scrolling } from "./scrolling.js";

function sideRow(map: StabilityMap, start: StartingTune, side: Side): Piece {
  const { limit, decidedBy, factor } = start.room[side.key];
  const end = reach(start, side);
  const free = end === null || factor === null;
  const cause = decidedBy === null ? "" : html` <small>${limitingCaseWords(map, decidedBy)}</small>`;
  return html`<tr><th scope="row">${capital(side.words)}</th>
<td>${free ? "free" : html`${side.gain.toUpperCase()} ${endPiece(ownScale(map), side.gain, end)}`}</td><td>${free ? "" : times(factor)}</td>
<td class="text">${free ? "nothing before zero" : limitWords(map, limit)}${cause}</td></tr>`;
}

function roomTable(map: StabilityMap, name: Axis): Piece {
  const { start, startReason } = map.axes[name];
  if (start === null)
    return html`<p><strong>${AXIS_TITLES[name]}: no starting tune.</strong> ${startReason ?? "The map gives no reason."}</p>`;
  return scrolling(
    `Room of ${name}`,
    html`<table class="room">
<caption>${AXIS_TITLES[name]}: from ${placePiece({ own: ownScale(map), units: map.units }, start)}</caption>
<thead><tr><th scope="col">Move</th><th scope="col">To</th><th scope="col">Factor</th><th scope="col" class="text">Meets first</th></tr></thead>
<tbody>${SIDES.map((side) => sideRow(map, start, side))}</tbody>
</table>`,
  );
}

export const room = (map: StabilityMap): Piece => html`
<section aria-labelledby="room">
<h2 id="room">Room on each side</h2>
<p class="lead">How far one gain can move alone, the other held, before the first limit is met.</p>
<div class="pair">${AXES.map((name) => roomTable(map, name))}</div>
</section>`;

/** The value at the starting tune, or why there is none. */
function measured(map: StabilityMap, name: Axis, measure: Measure): Piece {
  const { start } = map.axes[name];
  if (start === null) return html`<td></td>`;
  const value = start.measures[measure.id];
  if (value != null) return html`<td>${toThreeDigits(value)}</td>`;
  const code = absentAtStart(map, name, measure.id, start);
  return html`<td class="absent">${code === 0 ? "not seen" : ABSENCES[code]}</td>`;
}

const unitOf = (unit: string): Piece => (unit === "" ? html`` : html`<span class="unit-of">, ${unit}</span>`);

function limitCell(map: StabilityMap, measure: Measure): string {
  const limit = map.limits[measure.id];
  return limit === null ? "" : `${measure.better === "high" ? "\u2265" : "\u2264"}\u00a0${toThreeDigits(limit)}`;
}

const MARGINS = Object.freeze([
  ["Gain margin upwards", "gainUp", "gain", "dB", "How far P, I and D may rise together before the loop oscillates."],
  ["Gain margin downwards", "gainDown", "gain", "dB", "How far they may fall together."],
  ["Phase margin", "phase", "phase", "\u00b0", "How much more delay the loop bears."],
] as const);

function marginRow(map: StabilityMap, [title, key, bound, unit, why]: (typeof MARGINS)[number]): Piece {
  const cell = (name: Axis) => {
    const start = map.axes[name].start;
    if (start === null) return html`<td></td>`;
    const value = start.margins[key];
    return value === null ? html`<td class="absent">no end</td>` : html`<td>${toThreeDigits(value)}</td>`;
  };
  return html`<tr><th scope="row">${title}${unitOf(unit)} <small>${why}</small></th>${AXES.map(cell)}<td>\u2265\u00a0${toThreeDigits(wantedMargins(map)[bound])}</td></tr>`;
}

const FOLLOWING = Object.freeze([
  [
    "Attitude bandwidth",
    "bandwidth",
    "Hz",
    "How quick a stick the attitude still follows, by theory (ADS-33E definitions).",
  ],
  ["Phase delay", "phaseDelay", "ms", "How late it follows beyond that, by theory."],
] as const);

/** Nothing where the map holds neither. */
function followingRow(map: StabilityMap, [title, key, unit, why]: (typeof FOLLOWING)[number]): Piece {
  const values = AXES.map((name) => map.axes[name].boundary.theory?.attitude?.[key] ?? null);
  if (values.every((value) => value === null)) return html``;
  const cells = values.map((value) => (value === null ? html`<td></td>` : html`<td>${toThreeDigits(value)}</td>`));
  return html`<tr><th scope="row">${title}${unitOf(unit)} <small>${why}</small></th>${cells}<td></td></tr>`;
}

export const expectations = (map: StabilityMap): Piece => html`
<section aria-labelledby="expect">
<h2 id="expect">What to expect at the starting tune</h2>
<p class="lead">The worst value over every script, throttle and pack, from trials at exactly these gains.</p>
${scrolling(
  "Measures at the starting tune",
  html`<table class="measures">
<thead><tr><th scope="col">Measure</th>${AXES.map((name) => html`<th scope="col">${AXIS_TITLES[name]}</th>`)}<th scope="col">Limit</th></tr></thead>
<tbody>
${MEASURES.map(
  (
    measure,
  ) => html`<tr><th scope="row">${measure.title}${unitOf(unitLabel(measure.unit))} <small>${measure.why}</small></th>
${AXES.map((name) => measured(map, name, measure))}<td>${limitCell(map, measure)}</td></tr>`,
)}
${MARGINS.map((margin) => marginRow(map, margin))}
${FOLLOWING.map((term) => followingRow(map, term))}
</tbody>
</table>`,
)}
</section>`;
