// Yaw and I: a strip per gain with the finding as its title, and gain by gain in a table.
import { STRIP_MEASURES } from "../../base/strip-measures.js";
import { stripSvg } from "../../charts/strip.js";
import type { StabilityMap } from "../../map/format.js";
import { wantedMargins } from "../../map/wanted-margins.js";
import { toThreeDigits } from "../../words/numbers.js";
import {
  beyondWords,
  type NamedStrip,
  stripFinding,
  stripGain,
  stripRangeWords,
  stripsOf,
  stripUnitWords,
  yawI,
} from "../../words/strip-words.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece, raw } from "./html.js";
import { scrolling } from "./scrolling.js";

/** What the strips add to the page's style sheet. */
export const STRIPS_STYLE = `
.strips{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,21rem),1fr));gap:1.2rem}
.strips h3{font-size:1.1rem}.strips .scroll{margin:.4rem 0 0}
.strips .scroll table{font-size:.88rem}.strips .scroll th,.strips .scroll td{padding:.2rem .5rem}.strips .scroll td.text{white-space:nowrap}
.strips summary{cursor:pointer;color:var(--contour);padding:.3rem 0}
.strips summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}`;

/** Our unit beside it, small print, where the number is the controller's own. */
function yawIWords(map: StabilityMap, value: number): string {
  const ours = `${toThreeDigits(value)}\u00a0${unitLabel(map.units.i)}`;
  const shown = yawI(map, value);
  return shown === toThreeDigits(value) ? ours : `${shown} (${ours})`;
}

export function strips(map: StabilityMap): Piece {
  const all = stripsOf(map);
  if (all.length === 0) return html``;
  const held = map.strips?.yaw?.heldAtStart ?? [];
  const yawWords =
    map.strips?.yaw === undefined
      ? ""
      : html` Yaw's I stays at ${yawIWords(map, map.strips.yaw.i)}; ${held.length === 0 ? "no axis has a starting tune, so roll and pitch are held weakly" : `${held.join(" and ")} held at the starting tune`}.`;
  return html`
<section aria-labelledby="strips">
<h2 id="strips">Yaw and I</h2>
<p class="lead">One gain along a line, everything else as it is to be flown: yaw's P from turns that run on to the loop's own end, I from drift in
a gust to slow bounce-back. The model's own gain stays where it passes.${yawWords} Simulated rotors are all alike: in a punch-out a real craft's nose swings further.</p>
<div class="strips">${all.map((named) => figure(map, named))}</div>
</section>`;
}

function figure(map: StabilityMap, named: NamedStrip): Piece {
  const { strip, title } = named;
  const finding = stripFinding(map, named);
  const label = `Strip over ${title}. ${finding}.`;
  return html`<figure class="axis-map">
<h3>${finding}</h3>
<div role="img" aria-label="${label}">${raw(stripSvg(strip))}</div>
<figcaption>${stripRangeWords(map, named)} ${stripUnitWords(map, named)}</figcaption>
<details><summary>Gain by gain</summary>${scrolling(`${title}, gain by gain`, table(map, named))}</details>
</figure>`;
}

function table(map: StabilityMap, named: NamedStrip): Piece {
  const { strip, kind, title } = named;
  const measures = STRIP_MEASURES[kind].filter(({ id }) => strip.limits[id] != null);
  const margins = wantedMargins(map);
  const cell = (value: number | null | undefined) => html`<td>${value == null ? "" : toThreeDigits(value)}</td>`;
  const limit = (value: number | null | undefined, side: string) =>
    html`<td>${value == null ? "" : `${side}\u00a0${toThreeDigits(value)}`}</td>`;
  const rows = strip.gains.map((gain, at) => {
    const failure = strip.fails[at] ?? null;
    const own = gain === strip.declared ? " (model's)" : "";
    const taken = gain === strip.choice && gain !== strip.declared ? " (take)" : "";
    return html`<tr><th scope="row">${gain === 0 ? "0" : stripGain(strip, gain)}${own}${taken}</th>${measures.map(({ id }) => cell(strip.measures[id]?.[at]))}${cell(strip.margins.gainUp[at])}${cell(strip.margins.phase[at])}<td class="text">${failure === null ? "passes" : beyondWords(map, named, failure)}</td></tr>`;
  });
  const unit = (words: string) => (words === "1" ? "" : `, ${unitLabel(words)}`);
  return html`<table>
<thead><tr><th scope="col">${title}</th>${measures.map((one) => html`<th scope="col">${one.title}${unit(one.unit)}</th>`)}<th scope="col">Gain margin, dB</th><th scope="col">Phase margin, °</th><th scope="col" class="text"></th></tr></thead>
<tbody><tr><th scope="row">Limit</th>${measures.map(({ id }) => limit(strip.limits[id], "\u2264"))}${limit(margins.gain, "\u2265")}${limit(margins.phase, "\u2265")}<td></td></tr>
${rows}</tbody>
</table>`;
}
