// The first flight of a craft, before the ladder: bench, then a low hover.
import { motorPlanSvg } from "../../charts/motor-plan.js";
import type { FieldFacts } from "../../map/field-facts.js";
import type { StabilityMap } from "../../map/format.js";
import {
  BENCH_TITLE,
  benchChecks,
  FIRST_FLIGHT_LEAD,
  HOVER_TITLE,
  hoverChecks,
  ONLY_THEN,
} from "../../words/first-flight-words.js";
import { groundedAxes } from "../../words/grounded-words.js";
import { capital } from "../../words/limit-words.js";
import { packWords } from "../../words/pack-words.js";
import { html, type Piece, raw } from "./html.js";

/** Whether the craft may fly a climb at all. */
export const hasFirstFlight = (map: StabilityMap): boolean =>
  map.ladder !== undefined && groundedAxes(map).length === 0;

/** The section; nothing where there is no climb to fly. */
export function firstFlight(map: StabilityMap, facts: FieldFacts): Piece {
  const first = map.ladder?.steps[0];
  if (first === undefined || !hasFirstFlight(map)) return html``;
  return html`
<section aria-labelledby="first-flight">
<h2 id="first-flight">First flight</h2>
<p class="lead">${FIRST_FLIGHT_LEAD}</p>
<div class="first-flight">
<div><h3>${BENCH_TITLE}</h3>${list(benchChecks(facts))}</div>
${facts.motors === null ? "" : html`<figure><div role="img" aria-label="${MOTORS}">${raw(motorPlanSvg(facts.motors))}</div><figcaption>${MOTORS}</figcaption></figure>`}
<div><h3>${HOVER_TITLE}</h3><p>${packWords(facts, first.condition)}</p>${list(hoverChecks(map, facts))}</div>
</div>
<p class="lead"><strong>${ONLY_THEN}</strong></p>
</section>`;
}

const MOTORS = "The motors from above, by their place in the model file, and which way each turns.";

const list = (checks: readonly string[]): Piece =>
  html`<ol>${checks.map((check) => html`<li>${capital(check)}.</li>`)}</ol>`;
