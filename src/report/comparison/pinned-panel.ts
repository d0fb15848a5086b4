// The first screen of a comparison: is a pilot who flies the pinned tune still safe?

import { locatorSvg } from "../../charts/locator.js";
import type { Drift, PinnedDrift } from "../../compare/format.js";
import type { StabilityMap } from "../../map/format.js";
import { placeText } from "../../map/gain-text.js";
import { ownScale } from "../../map/own-scale.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { type PinnedRow, pinnedRows, pinnedState, placeWords } from "../../words/drift-words.js";
import { limitingCaseWords } from "../../words/limit-words.js";
import { wantedWords } from "../../words/margin-words.js";
import { gainUnits, ownWords } from "../../words/own-words.js";
import { VERDICT_WORDS } from "../../words/verdict-words.js";
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
  const facts = pinned === null ? startFacts(drift, name) : pinnedFacts(compared, name, pinned);
  const locator = await locatorSvg(withoutStart(candidate, name), name, [base]);
  const label = `Small map of ${name} as it is now${pinned === null ? "" : `, the pinned tune at ${placeText(drift.own, pinned.after)}`}.`;
  return html`<article class="tune pinned" aria-labelledby="pinned-${name}">
<h3 id="pinned-${name}">${AXIS_TITLES[name]}</h3>
${facts}
<div class="locator" role="img" aria-label="${label}">${raw(locator)}</div>
</article>`;
}

/** The starting tune's mark would distract from the pinned tune. */
function withoutStart(map: StabilityMap, name: Axis): StabilityMap {
  const axis = map.axes[name];
  return axis.pinned === undefined ? map : { ...map, axes: { ...map.axes, [name]: { ...axis, start: null } } };
}

function pinnedFacts({ drift, candidate }: Compared, name: Axis, pinned: PinnedDrift): Piece {
  const { title, good } = pinnedState(pinned);
  return html`<div class="gains"><p class="state ${good ? "good" : "bad"}">${title}</p>
<p>Pinned at ${placePiece(drift, pinned.after)}.</p></div>
${beforeAndNow(`The pinned tune of ${name}`, pinnedRows(drift.own, pinned))}
<dl class="sayings"><div${good ? "" : raw(' class="avoid"')}><dt>${good ? "Keeps" : "Why"}</dt><dd>${whyWords(drift, candidate, pinned)}</dd></div></dl>`;
}

function beforeAndNow(caption: string, rows: readonly PinnedRow[]): Piece {
  return html`<table class="before-now" aria-label="${caption}">
<thead><tr><td></td><th scope="col">Before</th><th scope="col">Now</th></tr></thead>
<tbody>${rows.map(([title, before, after]) => html`<tr><th scope="row">${title}</th><td>${before}</td><td>${after}</td></tr>`)}</tbody>
</table>`;
}

/** What rules the tune out now, or which margins it still has. */
function whyWords({ margins }: Drift, candidate: StabilityMap, { after }: PinnedDrift): string {
  const words = wantedWords(margins);
  if (after.safe) return `Clean in every script, and the wanted margins of ${words} hold at every throttle and pack.`;
  if (after.decidedBy === null) return `It is still clean, but the wanted margins of ${words} are no longer all there.`;
  return `${VERDICT_WORDS[after.verdict].title}: ${limitingCaseWords(candidate, after.decidedBy)}.`;
}

function startFacts({ axes, own }: Drift, name: Axis): Piece {
  const { before, after } = axes[name].start;
  const old = before?.roomInOther ?? -1;
  const state = before === null ? "" : `Yesterday's starting tune is ${old >= 0 ? "still" : "no longer"} safe.`;
  return html`<div class="gains"><p class="state">No tune is pinned</p>
<p>The sweep names no tune that is flown today, so the starting tune stands in. ${state}</p></div>
${beforeAndNow(`The starting tune of ${name}`, [["Starting tune", placeWords(own, before), placeWords(own, after)]])}`;
}
