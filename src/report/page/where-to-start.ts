// The first screen: per axis the gains to start with, how far each may move, what limits it, what to avoid.

import { avoidStripSvg } from "../../charts/avoid-strip.js";
import { locatorSvg } from "../../charts/locator.js";
import type { StabilityMap, StartingTune } from "../../map/format.js";
import { endText, placeText, settingText } from "../../map/gain-text.js";
import { ownScale } from "../../map/own-scale.js";
import { avoidWords } from "../../words/avoid-words.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { otherCauses } from "../../words/cause-words.js";
import { capital, limitWords, rangeWords, reach, tightest } from "../../words/limit-words.js";
import { times } from "../../words/numbers.js";
import { ownWords } from "../../words/own-words.js";
import { seedWords } from "../../words/seed-words.js";
import { chosenI, stripFinding, stripsOf } from "../../words/strip-words.js";
import { roundWords } from "../../words/unchanged-words.js";
import { unitLabel } from "../../words/units.js";
import { groundedTitle } from "./grounded.js";
import { html, type Piece, raw } from "./html.js";
import { bandLine, drawsLine, noneHolds, startDraws } from "./sure.js";

/** Large, what the pilot types; small, the same in our unit. */
function gain(map: StabilityMap, start: StartingTune, gain: "p" | "d" | "i", range: string | null): Piece {
  const own = ownScale(map);
  const ours = own?.[gain] == null ? "" : `${settingText(null, gain, start[gain])}\u00a0`;
  return html`<div class="gain">
<dt>${gain.toUpperCase()}</dt>
<dd><b>${settingText(own, gain, start[gain])}</b> <span class="unit">${ours}${unitLabel(map.units[gain])}</span>${
    range === null ? "" : html` <span class="range">room: ${range}</span>`
  }</dd>
</div>`;
}

function gains(map: StabilityMap, name: Axis, start: StartingTune): Piece {
  const chosen = chosenI(map, name);
  const set = { ...start, i: chosen?.i ?? start.i };
  const range = (one: "p" | "d" | "i") =>
    one === "i" ? (chosen?.range ?? null) : rangeWords(ownScale(map), start, one);
  return html`<dl class="gains">
${(["p", "d", "i"] as const).map((one) => gain(map, set, one, range(one)))}
</dl>`;
}

function limitLine(map: StabilityMap, start: StartingTune): Piece {
  const nearest = tightest(start);
  if (nearest === null || nearest.room.factor === null) return html`${start.limitedBy}`;
  const { side, room } = nearest;
  const at = `${endText(ownScale(map), side.gain, reach(start, side) ?? 0)} (${times(nearest.room.factor)})`;
  return html`<strong>${limitWords(map, room.limit)}</strong>. ${capital(side.words)} meets it first, at ${at}.`;
}

function chanceLine(map: StabilityMap, start: StartingTune | null): Piece | string {
  const words = start === null ? "" : seedWords(map, start);
  return words === "" ? "" : html`<div><dt>Chance</dt><dd>${words}</dd></div>`;
}

/** What the words beside it say, along P. */
function avoidPicture(map: StabilityMap, name: Axis): Piece | string {
  const svg = avoidStripSvg(map, name);
  if (svg === null) return "";
  const d = settingText(ownScale(map), "d", map.axes[name].start?.d ?? 0);
  return html`<div class="along" role="img" aria-label="P of ${name} at D ${d}, from weak through safe to never fly; the numbers follow in words.">${raw(svg)}</div>`;
}

/** The link to the climb: the starting tune must not be flown first. */
function climbLine(map: StabilityMap, name: Axis): Piece | string {
  const steps = (map.ladder?.steps ?? []).filter(({ axes }) => axes[name] !== undefined);
  const climb = steps.filter(({ stage }) => stage !== "check");
  const checks = steps.length - climb.length;
  const first = climb[0]?.axes[name];
  if (first === undefined) return "";
  const from = placeText(ownScale(map), first);
  return html`<div><dt>Climb</dt><dd>to it in <a href="#ladder">${climb.length} flights</a>${checks === 0 ? "" : ` and ${checks} checks`}, from ${from}.</dd></div>`;
}

function tune(map: StabilityMap, name: Axis, locator: string): Piece {
  const { start, startReason } = map.axes[name];
  const facts =
    start === null
      ? html`<div class="none"><p><strong>No starting tune.</strong> ${startReason ?? "The map gives no reason."}</p>${otherCauses(map.axes[name]).map((cause) => html`<p>${cause}</p>`)}</div>`
      : gains(map, name, start);
  const limit = start === null ? "" : html`<div><dt>Limit</dt><dd>${limitLine(map, start)}</dd></div>`;
  const where = start === null ? "no starting tune" : `the starting tune at ${placeText(ownScale(map), start)}`;
  const label = `Small map of ${name}: safe ground, ground to avoid, and ${where}.`;
  return html`<article class="tune" aria-labelledby="start-${name}">
<h3 id="start-${name}">${AXIS_TITLES[name]}</h3>
${facts}
<div class="locator" role="img" aria-label="${label}">${raw(locator)}</div>
${noneHolds(map, name)}<dl class="sayings">${startDraws(map, name)}${limit}${chanceLine(map, start)}${climbLine(map, name)}<div class="avoid"><dt>Avoid</dt><dd>${avoidPicture(map, name)}${avoidWords(map, name)}${bandLine(map, name)}</dd></div></dl>
</article>`;
}

/** Yaw's gains, and I that is not the model's; nothing where the sweep judged neither. */
function yawLine(map: StabilityMap): Piece | string {
  const named = stripsOf(map).filter(({ kind, strip }) => kind === "yaw" || strip.choice !== strip.declared);
  return named.length === 0
    ? ""
    : html`<p class="lead">${named.map((one) => html`<strong>${stripFinding(map, one)}.</strong> `)}<a href="#strips">Yaw and I</a></p>
`;
}

/** Whose numbers these are; where they are not the pilot's, how to learn what his are worth. */
function whoseNumbers(map: StabilityMap): Piece {
  const { lead, rest, bench } = ownWords(map);
  const how =
    bench === null ? "" : html`<details><summary>How to measure it on the bench</summary><p>${bench}</p></details>`;
  return html`<div class="lead whose"><p><strong>${lead}</strong> ${rest}</p>${how}</div>`;
}

export async function whereToStart(map: StabilityMap): Promise<Piece> {
  const panels = await Promise.all(AXES.map(async (name) => tune(map, name, await locatorSvg(map, name))));
  const rounding = roundWords(map);
  return html`
<section class="start" aria-labelledby="start">
<h2 id="start">${groundedTitle(map) === null ? "Where to start" : "What the map says of each axis"}</h2>
${whoseNumbers(map)}
<div class="pair">${panels}</div>
${yawLine(map)}${drawsLine(map)}${rounding === "" ? "" : html`<p class="lead">${rounding}</p>`}
</section>`;
}
