// What the fit rests on: model and flights by digest, and the command that makes it again.
import type { FitFile } from "../../fit/format.js";
import { html, type Piece } from "../page/html.js";

const row = (title: string, value: unknown): Piece => html`<div><dt>${title}</dt><dd>${value}</dd></div>`;

export const origin = ({ model, flights, productVersion, command }: FitFile): Piece => html`
<section aria-labelledby="provenance">
<h2 id="provenance">Provenance</h2>
<dl class="provenance">
${row("Model before", `${model.name} ${model.version}`)}
${row("Its digest", html`<code>${model.digest}</code>`)}
${flights.map(({ file, title, digest }) => html`${row("Flight", `${title} (${file})`)}${row("Its digest", html`<code>${digest}</code>`)}`)}
${row("Made by", `gainscape ${productVersion}`)}
</dl>
${
  command === undefined
    ? ""
    : html`<p>The same command makes the same fit, bit for bit:</p>
<pre><code>${command}</code></pre>`
}
</section>`;
