// What stands before the first step on a card: the day's boxes, the first flight, when to land, how to fill in the boxes.
import { motorPlanSvg } from "../../charts/motor-plan.js";
import type { FieldFacts } from "../../map/field-facts.js";
import type { StabilityMap } from "../../map/format.js";
import { ownScale } from "../../map/own-scale.js";
import {
  BENCH_TITLE,
  benchChecks,
  FIRST_FLIGHT_LEAD,
  HOVER_TITLE,
  hoverChecks,
  ONLY_THEN,
} from "../../words/first-flight-words.js";
import { ownWords } from "../../words/own-words.js";
import { LAND_ALWAYS } from "../../words/step-words.js";
import { roundWords, unchangedWords } from "../../words/unchanged-words.js";
import { html, type Piece, raw } from "../page/html.js";
import { unitWords } from "../page/ladder.js";
import { tick } from "./answers.js";
import { STAND_CHECKS } from "./test-stand.js";

const DAY_CHECKS = Object.freeze([
  "local rules",
  "spotter",
  "people and animals behind me",
  "fire-safe place for packs",
  "signal-loss landing tested",
]);
const FLIGHT_CHECKS = Object.freeze([
  "propellers tight, unbent, right way round",
  "pack strapped, not swollen, the one the step asks for",
  "gains of the step set",
]);

export const beforeFlights = (map: StabilityMap, facts: FieldFacts): Piece => html`
<p class="before"><strong>Before the day</strong> ${DAY_CHECKS.map(tick)}</p>
<p class="before"><strong>Before every flight</strong> ${FLIGHT_CHECKS.map(tick)}</p>
${firstFlight(map, facts)}
<p class="before"><strong>Land at once</strong> if ${LAND_ALWAYS}. Go back a step; ask somebody who knows before you go on.</p>
${gainsLine(map)}
<p class="before"><strong>Answers</strong> go into a flight file. Set: where it was other gains. Swings: how often it swung back. Slower, faster: than its picture. Else leave empty.</p>`;

export const beforeStand = (map: StabilityMap, facts: FieldFacts): Piece => html`
<p class="before"><strong>Before propellers turn</strong> ${STAND_CHECKS.map(tick)}</p>
<div class="first-flight">${bench(facts)}</div>
<p class="before"><strong>Cut the power at once</strong> if ${LAND_ALWAYS}. A stand adds friction and inertia of its own: what is predicted is the free craft.</p>
${gainsLine(map)}`;

/** Whose numbers the large ones are; where nobody's, how to learn that. */
function gainsLine(map: StabilityMap): Piece {
  const how = ownScale(map) === null ? ` ${ownWords(map).rest}` : "";
  return html`<p class="before"><strong>Gains</strong> ${unitWords(map)}${how} ${unchangedWords(map)} ${roundWords(map)}</p>`;
}

function firstFlight(map: StabilityMap, facts: FieldFacts): Piece {
  return html`<section class="first"><h2>First flight of this craft <small>${FIRST_FLIGHT_LEAD}</small></h2>
<div class="first-flight">${bench(facts)}
<div><h3>${HOVER_TITLE}</h3>${hoverChecks(map, facts).map(line)}<p><strong>${ONLY_THEN}</strong></p></div></div>
</section>`;
}

const bench = (facts: FieldFacts): Piece => html`<div><h3>${BENCH_TITLE}</h3>${benchChecks(facts).map(line)}</div>
${facts.motors === null ? html`<div></div>` : html`<div role="img" aria-label="Motors from above, by their place in the model file">${raw(motorPlanSvg(facts.motors))}</div>`}`;

const line = (check: string): Piece => html`<p class="check-line">${tick("")}${check}</p>`;
