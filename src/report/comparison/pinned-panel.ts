// The first screen of a comparison: is a pilot who flies the tune of before still safe, and if not, what to set and how to climb there.

import { locatorSvg } from "../../charts/locator.js";
import type { Drift, PinnedDrift } from "../../compare/format.js";
import type { StabilityMap } from "../../map/format.js";
import { placeText } from "../../map/gain-text.js";
import { ownScale } from "../../map/own-scale.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { type PinnedRow, pinnedRows, pinnedState, placeWords } from "../../words/drift-words.js";
import { capital } from "../../words/limit-words.js";
import { wantedWords } from "../../words/margin-words.js";
import { nextWords } from "../../words/next-words.js";
import { gainUnits, ownWords } from "../../words/own-words.js";
import { placePiece } from "../page/gain.js";
import { html, type Piece, raw } from "../page/html.js";
import type { Compared } from "./compared.js";

export async function pinnedPanels(compared: Compared): Promise<Piece> {
  const panels = await Promise.all(AXES.map((name) => panel(compared, name)));
  return html`
<section class="start" aria-labelledby="pinned">
<h2 id="pinned">Is the tune flown today still safe?</h2>
${whoseNumbers(compared)}
<div class="pair">${panels}</div>
</section>`;
}

function whoseNumbers({ drift, candidate }: Compared): Piece {
  if (drift.own === null && ownScale(candidate) !== null)
    return html`<p class="lead"><strong>The two models do not say the same of what one unit of their controllers is worth.</strong> ${gainUnits(null, drift.units)}</p>`;
  const { lead, rest } = ownWords(candidate);
  return html`<p class="lead"><strong>${lead}</strong> ${rest}</p>`;
}

async function panel(compared: Compared, name: Axis): Promise<Piece> {
  const { drift, base, candidate } = compared;
  const { pinned } = drift.axes[name];
  const facts = pinned === null ? startFacts(drift, name) : pinnedFacts(drift, name, pinned);
  const locator = await locatorSvg(withoutStart(candidate, name), name, [base]);
  const label = `Small map of ${name} as it is now${pinned === null ? "" : `, the pinned tune at ${placeText(drift.own, pinned.after)}`}.`;
  return html`<article class="tune pinned" aria-labelledby="pinned-${name}">
<h3 id="pinned-${name}">${AXIS_TITLES[name]}</h3>
${facts}
${doThis(compared, name)}
<div class="locator" role="img" aria-label="${label}">${raw(locator)}</div>
</article>`;
}

/** The starting tune's mark would distract from the pinned tune. */
function withoutStart(map: StabilityMap, name: Axis): StabilityMap {
  const axis = map.axes[name];
  return axis.pinned === undefined ? map : { ...map, axes: { ...map.axes, [name]: { ...axis, start: null } } };
}

function pinnedFacts(drift: Drift, name: Axis, pinned: PinnedDrift): Piece {
  const { title, good } = pinnedState(pinned);
  return html`<div class="gains"><p class="state ${good ? "good" : "bad"}">${title}</p>
<p>Pinned at ${placePiece(drift, pinned.after)}.</p></div>
${beforeAndNow(`The pinned tune of ${name}`, pinnedRows(drift.own, pinned))}`;
}

/** Old numbers and new ones, why, and the way up. */
function doThis({ drift, candidate }: Compared, name: Axis): Piece | string {
  const words = nextWords(drift, name, candidate.variants);
  const { before = null, start = null } = drift.axes[name].next ?? {};
  if (words === null) return "";
  const { title, good, reason, set, room, climb, caution } = words;
  const line = (term: string, value: Piece | string | null) =>
    value === null ? "" : html`<div><dt>${term}</dt><dd>${value}</dd></div>`;
  const old = before === null ? "." : `: ${placeText(drift.own, before)}.`;
  const margins = good
    ? html` The wanted margins of ${wantedWords(drift.margins)} hold at every throttle and pack.`
    : "";
  const ours = start === null || drift.own === null ? "" : html` <small class="ours">${placeText(null, start)}</small>`;
  const none = `Nothing: this map has no starting tune. ${candidate.axes[name].startReason ?? ""}`;
  return html`<dl class="sayings">
<div${good || before === null ? "" : raw(' class="avoid"')}><dt>${good ? "Keep" : "Do"}</dt><dd><strong>${title}</strong>${old}${margins}</dd></div>
${line("Why", reason === null ? null : `${reason}.`)}
${line(good ? "Or set" : "Set", set === null ? none : html`<strong>${set}</strong>, the start of the new map.${ours}`)}
${line("Room", room === null ? null : `${capital(room)}.`)}
${line("Climb", climb === null ? null : `to it in ${climb}; the new map\u2019s own report shows each.`)}
${line("Care", caution)}
</dl>`;
}

function beforeAndNow(caption: string, rows: readonly PinnedRow[]): Piece {
  return html`<table class="before-now" aria-label="${caption}">
<thead><tr><td></td><th scope="col">Before</th><th scope="col">Now</th></tr></thead>
<tbody>${rows.map(([title, before, after]) => html`<tr><th scope="row">${title}</th><td>${before}</td><td>${after}</td></tr>`)}</tbody>
</table>`;
}

function startFacts({ axes, own }: Drift, name: Axis): Piece {
  const { before, after } = axes[name].start;
  const old = before?.roomInOther ?? -1;
  const state = before === null ? "" : `Yesterday's starting tune is ${old >= 0 ? "still" : "no longer"} safe.`;
  return html`<div class="gains"><p class="state">No tune is pinned</p>
<p>The sweep names no tune that is flown today, so the starting tune stands in. ${state}</p></div>
${beforeAndNow(`The starting tune of ${name}`, [["Starting tune", placeWords(own, before), placeWords(own, after)]])}`;
}
