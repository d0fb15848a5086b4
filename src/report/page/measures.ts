// Each measure as a picture of its own, worst case over every script, throttle and pack: for a page without scripts,
// and for paper. With scripts the map itself shows them.
import { type MeasureId, measureOf } from "../../base/measures.js";
import type { StabilityMap } from "../../map/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../axes.js";
import { measureMapSvg } from "../charts/measure-map.js";
import { lowerFirst } from "../limit-words.js";
import { three, withUnit } from "../numbers.js";
import { spoken } from "../units.js";
import { html, type Piece, raw } from "./html.js";

/** The measures worth a map. */
export const MAPPED: readonly MeasureId[] = Object.freeze([
  "overshoot",
  "settling",
  "ringFrequency",
  "wobbleAngle",
  "wobbleFrequency",
  "heat",
]);

/** What the tints and lines of a measure's map say. */
export function measureWords(map: Pick<StabilityMap, "limits">, id: MeasureId): string {
  const { unit, better } = measureOf(id);
  const limit = map.limits[id];
  const inUnit = spoken(unit) === "" ? "" : ` in ${spoken(unit)}`;
  const bound = limit === null ? "" : ` The broken line is the limit, ${withUnit(limit, spoken(unit))}.`;
  const worse = better === null ? ", darker is faster" : better === "low" ? ", darker is worse" : ", darker is better";
  return `Contours${inUnit}${worse}.${bound}`;
}

async function picture(map: StabilityMap, name: Axis, id: MeasureId): Promise<Piece> {
  const { title, why } = measureOf(id);
  const start = map.axes[name].start;
  const value = start?.measures[id] ?? null;
  const there =
    start === null ? "" : ` At the starting tune: ${value === null ? "nothing to measure" : three(value)}.`;
  const label = `${title} of ${name} over P and D. ${measureWords(map, id)}${there} ${why}`;
  return html`<figure class="measure">
<h4>${AXIS_TITLES[name]}, ${lowerFirst(title)}</h4>
<div role="img" aria-label="${label}">${raw(await measureMapSvg(map, name, id))}</div>
<figcaption>${measureWords(map, id)}${there}</figcaption>
</figure>`;
}

export async function measures(map: StabilityMap): Promise<Piece> {
  const figures: Piece[] = [];
  for (const id of MAPPED) for (const name of AXES) figures.push(await picture(map, name, id));
  return html`<div class="pictures">
<h3 id="measures">Measure by measure</h3>
<p class="lead">The worst value over every script, throttle and pack. Bare ground: nothing to measure there.</p>
<div class="multiples">${figures}</div>
</div>`;
}
