// How sure the map is: shares of draws, what to measure first, the draws in which a starting tune fails.
import type { Worth } from "../../map/confidence-format.js";
import type { StabilityMap } from "../../map/format.js";
import { ownScale } from "../../map/own-scale.js";
import { type Sure, sureOf } from "../../map/sure.js";
import type { Sheet } from "../../sheet/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import {
  anyHolds,
  bandWords,
  countWords,
  DRAW_WORDS,
  failureWords,
  groundWords,
  leftOutWords,
  ofDraws,
  SIMULATED_CRAFT,
  startShareWords,
} from "../../words/confidence-words.js";
import { drawnWords } from "../../words/draw-words.js";
import { capital } from "../../words/limit-words.js";
import { keyBeside, numberTitle, numberTitles } from "../../words/number-words.js";
import { count, withUnit } from "../../words/numbers.js";
import { firstWords, worthKnowing } from "../../words/worth-words.js";
import { html, type Piece } from "./html.js";
import { scrolling } from "./scrolling.js";

/** The share of one axis's start, for the first screen; nothing where the map was made without draws. */
export function startDraws(map: StabilityMap, name: Axis): Piece | string {
  const sure = sureOf(map, map.axes[name]);
  if (sure === null || sure.start === null) return "";
  return html`<div class="share"><dt>Draws</dt><dd><strong>Safe in ${startShareWords(sure.start)}</strong>: ${SIMULATED_CRAFT}.</dd></div>`;
}

/** From where up the oscillation sustains itself over the draws; "" where the map was made without draws. */
export function bandLine(map: StabilityMap, name: Axis): string {
  const sure = sureOf(map, map.axes[name]);
  return sure === null ? "" : ` ${bandWords(ownScale(map), map.axes[name], sure)}`;
}

/** What to do where no point of an axis reaches the confidence; nothing where one does. */
export function noneHolds(map: StabilityMap, name: Axis): Piece | string {
  const sure = sureOf(map, map.axes[name]);
  if (sure === null || anyHolds(sure)) return "";
  const best = map.axes[name].start === null ? "" : " This is the best tune there is; its share below is all it has.";
  return html`<p class="unsure"><strong>No swept point is safe in ${ofDraws(sure.confidence)}.</strong> ${firstWords(sure.worth)}${best}</p>`;
}

/** Why a map says nothing of how sure it is, though its sweep asks; or what a draw is. */
export function drawsLine(map: StabilityMap): Piece | string {
  if (map.uncertaintyReason !== undefined)
    return html`<p class="lead"><strong>How sure this is, nobody can say:</strong> ${map.uncertaintyReason}</p>`;
  return map.uncertainty === undefined
    ? ""
    : html`<p class="lead">${DRAW_WORDS} <a href="#sure">How sure the map is</a>.</p>`;
}

const digits = (value: number): string => withUnit(Number(value.toPrecision(2)), "%");

/** A title begins with a capital, a key as the file spells it. */
const titleOf = (key: string): string => (keyBeside(key) === "" ? key : capital(numberTitle(key)));

const worthRow = ({ key, gain, error }: Worth): Piece =>
  html`<tr><th scope="row">${titleOf(key)} <small>${keyBeside(key)}</small></th><td>+${digits(gain)}</td><td>\u00b1\u00a0${digits(error)}</td></tr>`;

function worthTable(name: Axis, { worth }: Sure): Piece {
  const worthwhile = worthKnowing(worth);
  const rest = worth.filter((one) => !worthwhile.includes(one)).map(({ key }) => key);
  const table =
    worthwhile.length === 0
      ? ""
      : scrolling(
          `What to measure first for ${name}`,
          html`<table>
<caption>${AXIS_TITLES[name]}: safe ground gained</caption>
<thead><tr><th scope="col">Known exactly</th><th scope="col">Gain</th><th scope="col">Error</th></tr></thead>
<tbody>${worthwhile.map(worthRow)}</tbody>
</table>`,
        );
  const none =
    rest.length === 0
      ? ""
      : html`<p class="rest"><b>${worthwhile.length === 0 ? `${AXIS_TITLES[name]}: no` : "No"} difference seen</b> for ${count(rest.length)} numbers: ${numberTitles(rest).join(", ")}.</p>`;
  return html`<div>${table}${none}</div>`;
}

/** The draws in which a starting tune fails, complete without a script. */
function failingDraws(map: StabilityMap): Piece | string {
  const { draws = [], spreads = [] } = map.uncertainty ?? {};
  const failing = draws.flatMap((draw, k) => {
    const fails = AXES.flatMap((name) => {
      const by = draw[name].startFailsBy;
      return by === null ? [] : [`${AXIS_TITLES[name]}: ${failureWords(map, by)}`];
    });
    return fails.length === 0 ? [] : [{ number: k + 1, fails, drawn: drawnWords(spreads, draw) }];
  });
  if (failing.length === 0) return "";
  const all = countWords(failing.length, draws.length);
  return html`<h3>Where a starting tune fails</h3>
<details${failing.length > MOST_OPEN ? "" : html` open`}><summary>${all} draws, one by one</summary>
${scrolling(
  "Draws in which a starting tune fails",
  html`<table class="failing">
<thead><tr><th scope="col">Draw</th><th scope="col" class="text">What forbids it</th><th scope="col" class="text">Furthest from the model as it is written</th></tr></thead>
<tbody>${failing.map(({ number, fails, drawn }) => html`<tr><th scope="row">${number}</th><td class="text">${fails.join("; ")}</td><td class="text">${drawn.join(", ")}</td></tr>`)}</tbody>
</table>`,
)}
</details>`;
}

/** More rows than these are folded away. */
const MOST_OPEN = 8;

/** What forbids the starting tune, the most frequent first; "" where nothing does. */
function failuresInWords(map: StabilityMap, name: Axis): string {
  const times = new Map<string, number>();
  for (const draw of map.uncertainty?.draws ?? []) {
    const by = draw[name].startFailsBy;
    if (by !== null) times.set(by, (times.get(by) ?? 0) + 1);
  }
  if (times.size === 0) return "";
  const most = [...times].sort(([, one], [, other]) => other - one);
  return ` Of the draws that judge it, the starting tune fails by ${most.map(([by, n]) => `${failureWords(map, by)} in ${count(n)}`).join(", ")}.`;
}

/** What a reader must know before adding up; nothing where each number is for itself. */
const sharedWorth = (sheet: Sheet | null): string =>
  (sheet?.together?.pairs.length ?? 0) === 0
    ? ""
    : " Some of the model's numbers go together: measuring one tells of the others too, so that their gains are shared and do not add up.";

/** The section; nothing where the map was made without draws. */
export function howSure(map: StabilityMap, sheet: Sheet | null): Piece | string {
  const { uncertainty } = map;
  const axes = AXES.flatMap((name) => {
    const sure = sureOf(map, map.axes[name]);
    return sure === null ? [] : [{ name, sure }];
  });
  if (uncertainty === undefined || axes.length === 0) return "";
  const { pointDraws, draws, spreads, redrawn } = uncertainty;
  const again = redrawn === 0 ? "" : ` ${count(redrawn)} draws that no craft can have were drawn again.`;
  return html`
<section class="how-sure" aria-labelledby="sure">
<h2 id="sure">How sure the map is</h2>
<p class="lead">${DRAW_WORDS} About 95 of 100 craft lie within a \u00b1; ${count(spreads.length)} numbers have one, the loop gain among them
for what the model leaves out. ${count(pointDraws)} draws count at every point and choose the starting tune; ${count(draws.length)} others judge it.
The controller does not know the draw. Every number here is a <strong>${SIMULATED_CRAFT}</strong>.${again}</p>
<ul class="assumptions">${axes.map(({ name, sure }) => html`<li><b>${AXIS_TITLES[name]}.</b> ${groundWords(map.axes[name], sure)} ${bandWords(ownScale(map), map.axes[name], sure)}${failuresInWords(map, name)}</li>`)}</ul>
<h3>What to measure first</h3>
<p>How much safe ground would be gained if one number of the model were known exactly, in % of what theory calls safe in the
model as it is written. Measure it, and write it into the model with a smaller \u00b1.${sharedWorth(sheet)}</p>
<div class="pair">${axes.map(({ name, sure }) => worthTable(name, sure))}</div>
${failingDraws(map)}
<p class="rest">${leftOutWords(map)}</p>
</section>`;
}

export const SURE_STYLE = `
.unsure{border-left:.4rem solid var(--warn);padding:.3rem 0 .3rem .8rem;grid-area:say;margin:0}
.unsure+.sayings,.tune:has(.unsure) .sayings{grid-area:auto;grid-column:1/-1}
.how-sure h3{margin:1.1rem 0 .4rem}.how-sure .rest{color:var(--soft);font-size:.92rem;max-width:62rem}
.how-sure .failing{width:100%}
.draw-line{fill:none;stroke:var(--warn);stroke-width:2.6;stroke-dasharray:10 4}.draw-under{fill:none;stroke:var(--sheet);stroke-width:5.5}
#draw-words{flex-basis:100%}#draw-words p{margin:.1rem 0}`;
