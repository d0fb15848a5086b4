// The card of a craft that must not fly: in large letters, and why.
import { shellLine } from "../../base/shell-words.js";
import type { StabilityMap } from "../../map/format.js";
import { AXES, AXIS_TITLES } from "../../words/axes.js";
import { type GroundedAxis, WHY_GROUNDED } from "../../words/grounded-words.js";
import { html, type Piece } from "../page/html.js";

export function groundedSheet(map: StabilityMap, grounded: readonly GroundedAxis[]): Piece {
  const [free] = AXES.filter((axis) => grounded.every((one) => one.axis !== axis));
  const { sweep, model } = map.provenance;
  return html`<section class="grounded">
<h2>Do not fly</h2>
${grounded.map(({ reasons: [first = "", ...more] }) => html`<p class="reason">${first}</p>${more.map((one) => html`<p>${one}</p>`)}`)}
${
  free === undefined
    ? ""
    : html`<p><strong>${WHY_GROUNDED}</strong></p>
<p>${AXIS_TITLES[free]} alone can be tried on a test stand that holds the craft. Its card: <code>${shellLine(["gainscape", "card", sweep, "--model", model, "--test-stand", free])}</code></p>`
}
<p>What helps: hold the numbers of the model against the craft (<code>${shellLine(["gainscape", "check", model])}</code>), mend what stands above, sweep again.</p>
</section>`;
}

/** A map with starting tunes, made by a version that planned no climbs. */
export const olderSheet = (): Piece => html`<section class="grounded">
<h2>No flight planned</h2>
<p class="reason">No climb in this map: it was written before climbs were planned. Sweep again.</p>
</section>`;
