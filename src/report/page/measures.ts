// Each measure as a picture of its own, worst case over every script, throttle and pack: for a page without scripts,
// and for paper. With scripts the map itself shows them.
import { type MeasureId, measureOf } from "../../base/measures.js";
import { measureMapSvg } from "../../charts/measure-map.js";
import type { StabilityMap } from "../../map/format.js";
import { AXES, type Axis } from "../../words/axes.js";
import { measureTitle } from "../../words/chart-titles.js";
import { BARE, MAPPED, measureWords } from "../../words/measure-words.js";
import { toThreeDigits } from "../../words/numbers.js";
import { html, type Piece, raw } from "./html.js";

async function picture(map: StabilityMap, name: Axis, id: MeasureId): Promise<Piece> {
  const { title, why } = measureOf(id);
  const start = map.axes[name].start;
  const value = start?.measures[id] ?? null;
  const there =
    start === null ? "" : ` At the starting tune: ${value === null ? "nothing to measure" : toThreeDigits(value)}.`;
  const label = `${title} of ${name} over P and D. ${measureWords(map, id)}${there} ${why}`;
  return html`<figure class="measure">
<h4>${measureTitle(map, name, id)}</h4>
<div role="img" aria-label="${label}">${raw(await measureMapSvg(map, name, id))}</div>
<figcaption>${measureWords(map, id)}${there}</figcaption>
</figure>`;
}

export async function measures(map: StabilityMap): Promise<Piece> {
  const figures: Piece[] = [];
  for (const id of MAPPED) for (const name of AXES) figures.push(await picture(map, name, id));
  return html`<div class="pictures">
<h3 id="measures">Measure by measure</h3>
<p class="lead">The worst value over every script, throttle and pack. ${BARE}</p>
<div class="multiples">${figures}</div>
</div>`;
}
