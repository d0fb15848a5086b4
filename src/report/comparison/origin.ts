// What the comparison rests on: both maps by digest, and the commands that make them again.
import type { Drift, Side } from "../../compare/format.js";
import { count } from "../../words/numbers.js";
import { html, type Piece } from "../page/html.js";

const row = (title: string, value: unknown): Piece => html`<div><dt>${title}</dt><dd>${value}</dd></div>`;

export const origin = (drift: Drift): Piece => html`
<section aria-labelledby="provenance">
<h2 id="provenance">Provenance</h2>
<dl class="provenance">
${side("Base", drift.base)}
${side("Candidate", drift.candidate)}
${row("Sweep", `${drift.sweep.title} (${drift.sweep.name})`)}
${row("Compared by", `${drift.product.name} ${drift.product.version}`)}
</dl>
<p>The same command compares the same maps, bit for bit:</p>
<pre><code>${drift.command}</code></pre>
</section>`;

const side = (title: string, { airframe, product, command, model, planDigest, trials }: Side): Piece => html`
${row(title, html`${airframe.name} ${airframe.version}, ${airframe.title} (${model}); ${count(trials)} trials, gainscape ${product}`)}
${row(`${title} plan`, html`<code>${planDigest}</code>`)}
${row(`${title} craft`, html`<code>${airframe.digest}</code>`)}
${row("Made by", html`<code>${command}</code>`)}`;
