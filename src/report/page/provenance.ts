// What the map rests on: assumptions, inputs by digest, and the command that makes it again, bit for bit.
import type { StabilityMap } from "../../map/format.js";
import { wantedMargins } from "../../map/wanted-margins.js";
import { gridWords } from "../../words/grid-words.js";
import { wantedSource } from "../../words/margin-words.js";
import { count } from "../../words/numbers.js";
import { settledWords } from "../../words/settled-words.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece } from "./html.js";

const row = (title: string, value: unknown): Piece => html`<div><dt>${title}</dt><dd>${value}</dd></div>`;

export const assumed = (map: StabilityMap): Piece => html`
<section aria-labelledby="assumed">
<h2 id="assumed">Assumed, not measured</h2>
${map.assumptions.length === 0 ? html`<p>Nothing was left to a default.</p>` : ""}
<ul class="assumptions">${[...map.assumptions, wantedSource(wantedMargins(map))].map((line) => html`<li>${unitLabel(line)}</li>`)}</ul>
</section>`;

export const provenance = (map: StabilityMap): Piece => {
  const { airframe, sweep, provenance: run, product } = map;
  return html`
<section aria-labelledby="provenance">
<h2 id="provenance">Provenance</h2>
<dl class="provenance">
${row("Craft", html`${airframe.name} ${airframe.version}, ${airframe.title} (${run.model})`)}
${row("Craft digest", html`<code>${airframe.digest}</code>`)}
${row("Sweep", html`${sweep.title} (${run.sweep})`)}
${row("Sweep digest", html`<code>${sweep.digest}</code>`)}
${row(
  "Grid",
  gridWords(map, ({ p, d }) => `${count(p.length)} P \u00d7 ${count(d.length)} D`),
)}
${row("Trials", [`${count(run.trials)}, ${count(run.steps)} steps`, settledWords(map) ?? []].flat().join("; "))}
${row("Seed", String(run.seed))}
${row("Made by", `${product.name} ${product.version}`)}
</dl>
<p>The same command makes the same map, bit for bit:</p>
<pre><code>${run.command}</code></pre>
</section>`;
};
