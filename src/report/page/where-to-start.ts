// The first screen: per axis the gains to start with, how far each may move, what limits it, what to avoid.

import { locatorSvg } from "../../charts/locator.js";
import type { StabilityMap, StartingTune } from "../../map/format.js";
import { avoidWords } from "../../words/avoid-words.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { otherCauses } from "../../words/cause-words.js";
import { capital, limitWords, rangeWords, reach, tightest } from "../../words/limit-words.js";
import { times, toThreeDigits } from "../../words/numbers.js";
import { seedWords } from "../../words/seed-words.js";
import { chosenI, stripFinding, stripsOf } from "../../words/strip-words.js";
import { roundWords } from "../../words/unchanged-words.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece, raw } from "./html.js";
import { bandLine, drawsLine, noneHolds, startDraws } from "./sure.js";

function gain(letter: string, value: number, unit: string, range: string | null, own: number | null): Piece {
  return html`<div class="gain">
<dt>${letter}</dt>
<dd><b>${toThreeDigits(value)}</b> <span class="unit">${unitLabel(unit)}</span>${
    own === null ? "" : html` <span class="own">${toThreeDigits(own)} on the controller</span>`
  }${range === null ? "" : html` <span class="range">room: ${range}</span>`}</dd>
</div>`;
}

function gains(map: StabilityMap, name: Axis, start: StartingTune): Piece {
  const { p, d, i } = map.units;
  const chosen = chosenI(map, name);
  return html`<dl class="gains">
${gain("P", start.p, p, rangeWords(start, "p"), start.own?.p ?? null)}
${gain("D", start.d, d, rangeWords(start, "d"), start.own?.d ?? null)}
${gain("I", chosen?.i ?? start.i, i, chosen?.range ?? null, chosen?.own ?? null)}
</dl>`;
}

function limitLine(map: StabilityMap, start: StartingTune): Piece {
  const nearest = tightest(start);
  if (nearest === null || nearest.room.factor === null) return html`${start.limitedBy}`;
  const { side, room } = nearest;
  const at = `${toThreeDigits(reach(start, side) ?? 0)} (${times(nearest.room.factor)})`;
  return html`<strong>${limitWords(map, room.limit)}</strong>. ${capital(side.words)} meets it first, at ${at}.`;
}

function chanceLine(map: StabilityMap, start: StartingTune | null): Piece | string {
  const words = start === null ? "" : seedWords(map, start);
  return words === "" ? "" : html`<div><dt>Chance</dt><dd>${words}</dd></div>`;
}

/** The link to the climb: the starting tune must not be flown first. */
function climbLine(map: StabilityMap, name: Axis): Piece | string {
  const steps = (map.ladder?.steps ?? []).filter(({ axes }) => axes[name] !== undefined);
  const climb = steps.filter(({ stage }) => stage !== "check");
  const checks = steps.length - climb.length;
  const first = climb[0]?.axes[name];
  if (first === undefined) return "";
  const from = `P ${toThreeDigits(first.p)}, D ${toThreeDigits(first.d)}`;
  return html`<div><dt>Climb</dt><dd>to it in <a href="#ladder">${climb.length} flights</a>${checks === 0 ? "" : ` and ${checks} checks`}, from ${from}.</dd></div>`;
}

function tune(map: StabilityMap, name: Axis, locator: string): Piece {
  const { start, startReason } = map.axes[name];
  const facts =
    start === null
      ? html`<div class="none"><p><strong>No starting tune.</strong> ${startReason ?? "The map gives no reason."}</p>${otherCauses(map.axes[name]).map((cause) => html`<p>${cause}</p>`)}</div>`
      : gains(map, name, start);
  const limit = start === null ? "" : html`<div><dt>Limit</dt><dd>${limitLine(map, start)}</dd></div>`;
  const where =
    start === null
      ? "no starting tune"
      : `the starting tune at P ${toThreeDigits(start.p)}, D ${toThreeDigits(start.d)}`;
  const label = `Small map of ${name}: safe ground, ground to avoid, and ${where}.`;
  return html`<article class="tune" aria-labelledby="start-${name}">
<h3 id="start-${name}">${AXIS_TITLES[name]}</h3>
${facts}
<div class="locator" role="img" aria-label="${label}">${raw(locator)}</div>
${noneHolds(map, name)}<dl class="sayings">${startDraws(map, name)}${limit}${chanceLine(map, start)}${climbLine(map, name)}<div class="avoid"><dt>Avoid</dt><dd>${avoidWords(map, name)}${bandLine(map, name)}</dd></div></dl>
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

export async function whereToStart(map: StabilityMap): Promise<Piece> {
  const panels = await Promise.all(AXES.map(async (name) => tune(map, name, await locatorSvg(map, name))));
  const rounding = roundWords(map);
  return html`
<section class="start" aria-labelledby="start">
<h2 id="start">Where to start</h2>
<div class="pair">${panels}</div>
${yawLine(map)}${drawsLine(map)}${rounding === "" ? "" : html`<p class="lead">${rounding}</p>`}
</section>`;
}
