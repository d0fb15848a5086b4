// The record of the day, how sure the tune is, and what the card is based on.
import type { StabilityMap } from "../../map/format.js";
import { sureOf } from "../../map/sure.js";
import { AXES, AXIS_TITLES } from "../../words/axes.js";
import { anyHolds, ofDraws, SIMULATED_CRAFT, startShareWords } from "../../words/confidence-words.js";
import { capital } from "../../words/limit-words.js";
import type { Scales } from "../ladder/scales.js";
import { html, type Piece } from "../page/html.js";
import { scaleWords } from "../page/ladder.js";
import { blank } from "./answers.js";

export const record = (): Piece => html`<section class="record"><h2>The tune that flew</h2>
${AXES.map((axis) => html`<p class="blanks"><strong>${AXIS_TITLES[axis]}</strong> ${["P", "D", "I"].map(blank)}</p>`)}
<p class="blanks"><strong>Hovers at</strong> ${blank("throttle, %")}<span class="blank wide">Signed</span></p>
</section>`;

export const basis = (map: StabilityMap, scales: Scales): Piece => html`<footer>${sureLine(map)}
<p class="small">${scaleWords(scales)} A model's estimate; local rules and the qualified people at the field come first. ${capital(map.airframe.title)}; craft ${map.airframe.digest.slice(0, 12)}, sweep ${map.sweep.digest.slice(0, 12)}, ${map.product.name} ${map.product.version}.</p></footer>`;

/** How sure the tune at the top of the climb is; nothing where the map's sweep asked for no draws. */
function sureLine(map: StabilityMap): Piece | string {
  const { uncertainty, uncertaintyReason } = map;
  if (uncertaintyReason !== undefined)
    return html`<p class="before"><strong>How sure</strong> nobody can say: ${uncertaintyReason}</p>`;
  if (uncertainty === undefined) return "";
  const shares = AXES.flatMap((axis) => {
    const sure = sureOf(map, map.axes[axis]);
    if (sure === null || sure.start === null) return [];
    const ground = anyHolds(sure) ? "" : `; no tune is safe in ${ofDraws(sure.confidence)}`;
    return [`${AXIS_TITLES[axis]} tune: safe in ${startShareWords(sure.start)}${ground}.`];
  });
  return html`<p class="before"><strong>How sure</strong> ${shares.join(" ")} The map calls safe what is safe in ${ofDraws(uncertainty.confidence)}. ${capital(SIMULATED_CRAFT)}.</p>`;
}
