// The stability maps, one figure per axis in two sizes of the same drawing, and the key to both.
import { VERDICTS } from "../../base/measures.js";
import { axisMapSvg, MAP_LINES } from "../../charts/axis-map.js";
import { CONFIDENCE_LINES } from "../../charts/confidence-lines.js";
import { plotPlace } from "../../charts/plot-place.js";
import {
  bandSwatch,
  groundSwatch,
  lineSwatch,
  pinnedSwatch,
  pointSwatch,
  regionSwatch,
  theorySwatch,
} from "../../charts/swatches.js";
import { type ApartRange, apartOf, apartWords } from "../../map/apart.js";
import type { StabilityMap } from "../../map/format.js";
import { placeText } from "../../map/gain-text.js";
import { ownScale } from "../../map/own-scale.js";
import { sureOf } from "../../map/sure.js";
import { wantedMargins } from "../../map/wanted-margins.js";
import { AXES, AXIS_TITLES, type Axis, verdictShares } from "../../words/axes.js";
import { mapFinding } from "../../words/chart-titles.js";
import { DRAW_WORDS, groundWords, ofDraws, SIMULATED_CRAFT } from "../../words/confidence-words.js";
import { wantedWords } from "../../words/margin-words.js";
import { percent, withUnit } from "../../words/numbers.js";
import { settledWords } from "../../words/settled-words.js";
import { VERDICT_WORDS } from "../../words/verdict-words.js";
import { drawSwitch } from "./draw-switch.js";
import { html, type Piece, raw } from "./html.js";
import { mapSwitch, readoutPlace } from "./map-switch.js";
import { measures } from "./measures.js";

const WIDE = Object.freeze({ width: 520, height: 420, letters: 16 });
const NARROW = Object.freeze({ width: 296, height: 320, letters: 14 });

/**
 * What the grounds, lines and points of an axis map mean. Some apply only while a script shows the verdicts, some only
 * while it shows those of everything together, or of one level.
 */
export function key(map: StabilityMap): Piece {
  const entry = (
    sign: string,
    title: string,
    meaning: string,
    applies: "verdicts" | "together" | "level" | null = null,
  ) =>
    html`<li${applies === null ? "" : html` data-applies="${applies}"${applies === "level" ? html` hidden` : ""}`}>${raw(sign)}<span><b>${title}</b> ${meaning}</span></li>`;
  const { overshoot, settling } = map.limits;
  const safeWords = `Clean, and ${wantedWords(wantedMargins(map))} of margin are left at every throttle and pack.`;
  const boundary = (applies: "verdicts" | "level") =>
    entry(
      lineSwatch(MAP_LINES.sustained),
      "Sustained boundary",
      "Beyond it the oscillation keeps itself alive.",
      applies,
    );
  const theory = (applies: "verdicts" | "level") =>
    AXES.some((name) => map.axes[name].boundary.theory !== undefined)
      ? entry(
          theorySwatch(),
          "Theory",
          "Where a small nudge stops dying out, from equations alone; hard manoeuvres can lower the boundary.",
          applies,
        )
      : "";
  const writtenEntries = [
    entry(lineSwatch(MAP_LINES.safe, true), "Safe", safeWords, "together"),
    "\n",
    boundary("verdicts"),
  ];
  const sure = sureOf(map, map.axes.roll);
  const drawn = ofDraws(sure?.confidence ?? 1);
  const drawnEntries = [
    entry(regionSwatch(), `Safe in ${drawn}`, `${safeWords} A ${SIMULATED_CRAFT}.`, "together"),
    entry(
      lineSwatch(CONFIDENCE_LINES.asWritten),
      "Thin lines",
      "The same and the boundary, in the model as it is written.",
      "together",
    ),
    entry(
      bandSwatch(),
      "Sustained boundary",
      "Beyond it the oscillation keeps itself alive: from 5 to 95 of 100 draws, the thick line in half of them.",
      "together",
    ),
    boundary("level"),
  ];
  return html`<div class="key">
<ul aria-label="Ground">
${[...VERDICTS].reverse().map((verdict) => entry(groundSwatch(verdict), VERDICT_WORDS[verdict].title, VERDICT_WORDS[verdict].meaning, verdict === "sustained" ? null : "verdicts"))}
</ul>
<ul aria-label="Lines and points">
${sure === null ? writtenEntries : drawnEntries}
${overshoot === null ? "" : entry(lineSwatch(MAP_LINES.overshoot), "Bounce-back", `reaches ${withUnit(overshoot, "%")} after a stop.`, "together")}
${settling === null ? "" : entry(lineSwatch(MAP_LINES.settling), "Settling", `takes ${withUnit(settling, "ms")} after a stop.`, "together")}
${entry(lineSwatch(MAP_LINES.contour), "Contours", "Gain margin: how far P, I and D may rise together; 6 dB is double.", "together")}
${theory(sure === null ? "verdicts" : "level")}
${entry(pointSwatch(), "Start", "The starting tune.")}
${map.axes.roll.pinned === undefined ? "" : entry(pinnedSwatch(), "Pinned", "The tune flown today.")}
</ul>
</div>`;
}

function inWords(map: StabilityMap, name: Axis): string {
  const axis = map.axes[name];
  const shares = verdictShares(axis);
  const parts = VERDICTS.map((verdict) => `${percent(shares[verdict])} ${VERDICT_WORDS[verdict].title.toLowerCase()}`);
  const start =
    axis.start === null
      ? "There is no starting tune."
      : `The starting tune is at ${placeText(ownScale(map), axis.start)}.`;
  const sure = sureOf(map, axis);
  const safe = sure === null ? `; ${percent(axis.safeShare)} are safe.` : `. ${groundWords(axis, sure)}`;
  return `Of the swept points ${parts.join(", ")}${safe} ${start}${apartInWords(map, name)}`;
}

/** Stable ranges apart from the one whose end is the boundary. */
function apartInWords(map: StabilityMap, name: Axis): string {
  const apart = apartOf(map.axes[name]);
  if (apart.length === 0) return "";
  const rows = new Set(apart.map(({ d }) => d)).size;
  const first = apart.find(({ below }) => below) ?? apart[0];
  return ` At ${rows} of ${map.axes[name].grid.d.length} D stable ground lies in two pieces or more, with an oscillation between; beside the one that counts: ${apartWords(ownScale(map), first as ApartRange, map.axes[name].grid.p)}${apart.length === 1 ? "" : `, and ${apart.length - 1} more`}.`;
}

/** The picture, with the place of its plot for a script to lie over. */
function plate(
  named: string,
  label: string,
  svg: string,
  size: { readonly width: number; readonly height: number },
): Piece {
  const { left, top, width, height } = plotPlace(svg, size);
  const place = [left, top, width, height].map((share) => share.toFixed(5)).join(" ");
  return html`<div class="${named} plate" data-plot="${place}" data-size="${size.width} ${size.height}"><div role="img" aria-label="${label}">${raw(svg)}</div></div>`;
}

async function figure(map: StabilityMap, name: Axis): Promise<Piece> {
  const wide = await axisMapSvg(map, name, WIDE);
  const narrow = await axisMapSvg(map, name, NARROW);
  const label = `Stability map of ${name}, D across and P up. ${inWords(map, name)}`;
  return html`<figure class="axis-map" id="map-${name}">
<h3>${AXIS_TITLES[name]}<span data-applies="together">: ${mapFinding(map, name)}</span></h3>
${plate("wide", label, wide, WIDE)}
${plate("narrow", label, narrow, NARROW)}
${readoutPlace(name)}
<figcaption data-applies="together">${inWords(map, name)}</figcaption>
</figure>`;
}

const drawsLead = ({ uncertainty }: StabilityMap): Piece | string =>
  uncertainty === undefined
    ? ""
    : html`<p class="lead">${DRAW_WORDS} Filled: safe in ${ofDraws(uncertainty.confidence)}. Grounds and thin lines are the model as it is written.</p>
`;

const leftOutLead = (map: StabilityMap): Piece | string =>
  settledWords(map) === null
    ? ""
    : html`<p class="lead">Where a small nudge keeps itself alive, and everywhere around it, nothing can change the verdict: there the other
scripts were not simulated.</p>
`;

export async function maps(map: StabilityMap): Promise<Piece> {
  const figures = await Promise.all(AXES.map((name) => figure(map, name)));
  return html`
<section aria-labelledby="map">
<h2 id="map">The map</h2>
<p class="lead">Every point is one pair of P and D, simulated through every script at every throttle and pack; it carries the
gravest verdict it met. Ticks inside the frame are the simulated points. Borders between them are interpolated; the
sustained boundary was narrowed down with trials of its own. What was swept beyond the picture is sustained throughout.</p>
${leftOutLead(map)}${drawsLead(map)}${mapSwitch()}${drawSwitch(map)}
${key(map)}
<div class="pair">${figures}</div>
${await measures(map)}
</section>`;
}
