// Which scripts made points worse or better, and what changed in the model.
import type { Drift, VerdictCause } from "../../compare/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { limitingCaseWords } from "../../words/limit-words.js";
import { count } from "../../words/numbers.js";
import { VERDICT_WORDS } from "../../words/verdict-words.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";
import type { Compared } from "./compared.js";

const MOST = 12; // rows of causes; the rest is in drift.json

export const causes = (compared: Compared): Piece => html`
<section aria-labelledby="causes">
<h2 id="causes">Points that changed their verdict</h2>
<p class="lead">Worsened points by the trial that now decides them, improved ones by the trial that decided before.</p>
<div class="pair">${AXES.map((name) => axisCauses(compared, name))}</div>
</section>`;

function axisCauses(compared: Compared, name: Axis): Piece {
  const { verdicts } = compared.drift.axes[name];
  const changes = verdicts.changes.map(({ from, to, points }) => `${count(points)} ${lower(from)} \u2192 ${lower(to)}`);
  const words = `${count(verdicts.worsened)} worse, ${count(verdicts.improved)} better, ${count(verdicts.same)} the same`;
  return html`<div><h3>${AXIS_TITLES[name]}</h3>
<p>${words}${changes.length === 0 ? "" : `: ${changes.join(", ")}`}.</p>
${verdicts.causes.length === 0 ? "" : causeTable(compared, name, verdicts.causes)}</div>`;
}

const lower = (verdict: keyof typeof VERDICT_WORDS): string => VERDICT_WORDS[verdict].title.toLowerCase();

const causeTable = ({ candidate }: Compared, name: Axis, rows: readonly VerdictCause[]): Piece =>
  scrolling(
    `Causes on ${name}`,
    html`<table>
<thead><tr><th scope="col">Decided by</th><th scope="col">Worse</th><th scope="col">Better</th></tr></thead>
<tbody>${rows.slice(0, MOST).map((cause) => html`<tr><th scope="row">${limitingCaseWords(candidate, cause)}</th><td>${count(cause.worsened)}</td><td>${count(cause.improved)}</td></tr>`)}</tbody>
</table>`,
  );

export const modelTable = ({ model }: Drift): Piece => html`
<section aria-labelledby="model">
<h2 id="model">What changed in the model</h2>
${
  model.length === 0
    ? html`<p>Nothing: both sides are the same craft.</p>`
    : scrolling(
        "Changed keys of the model",
        html`<table>
<thead><tr><th scope="col">Key</th><th scope="col">Before</th><th scope="col">Now</th></tr></thead>
<tbody>${model.map(({ key, before, after }) => html`<tr><th scope="row"><code>${key}</code></th><td>${before ?? "absent"}</td><td>${after ?? "absent"}</td></tr>`)}</tbody>
</table>`,
      )
}
</section>`;
