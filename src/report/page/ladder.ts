// The climb to the starting tune, flight by flight: gains, what to fly, what it should look like, when to land.
import type { FieldFacts } from "../../map/field-facts.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderStep } from "../../map/ladder-format.js";
import { ownScale } from "../../map/own-scale.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { capital } from "../../words/limit-words.js";
import { withUnit } from "../../words/numbers.js";
import { gainUnits, ownWords } from "../../words/own-words.js";
import { packWords } from "../../words/pack-words.js";
import { LAND_ALWAYS, manoeuvreWords, stepWords } from "../../words/step-words.js";
import { measuredWords } from "../../words/tune-words.js";
import { roundWords, unchangedWords } from "../../words/unchanged-words.js";
import { gainCells } from "../ladder/gains.js";
import { pictures } from "../ladder/pictures.js";
import { type Scales, scalesOf } from "../ladder/scales.js";
import { hasFirstFlight } from "./first-flight.js";
import { groundedLine } from "./grounded.js";
import { html, type Piece } from "./html.js";

/** The section; nothing where the map holds no climb. */
export function ladder(map: StabilityMap, facts: FieldFacts): Piece {
  if (map.ladder === undefined) return html``;
  const scales = scalesOf(map.ladder);
  return html`
<section aria-labelledby="ladder">
<h2 id="ladder">The ladder</h2>
${groundedLine(map)}<p class="lead">Do not fly the starting tune first: ${hasFirstFlight(map) ? html`after the <a href="#first-flight">first flight</a> ` : ""}climb to it, one flight a step, P
at low D before D, its manoeuvres gentle at first, and go back a step when a flight is worse than its picture. <strong>Land at once if ${LAND_ALWAYS}.</strong> ${unchangedWords(map)} ${roundWords(map)} ${scaleWords(scales)} ${unitWords(map)} The flight-test card to print is
<a href="card.html">card.html</a>, beside this file.</p>
<ol class="ladder">
${map.ladder.steps.map((step, at) => rung(map, facts, scales, step, at))}
</ol>
</section>`;
}

/** What the pictures show, and that they share one scale. */
export function scaleWords({ stop, swing }: Scales): string {
  const span = ([from, to]: readonly [number, number], unit: string) =>
    withUnit(Math.round((to - from) * 10) / 10, unit);
  return `The pictures share one scale: a stop shows the rate, as a share of what was commanded, over ${span(stop.time, "s")} around its end, dashed the command; a wobble or a throttle burst shows the tilt over ${span(swing.time, "s")}; dotted is the step before.`;
}

/** Whose numbers these are, and which of two is which. */
export function unitWords(map: StabilityMap): string {
  const { lead } = ownWords(map);
  const units = gainUnits(null, map.units);
  return ownScale(map) === null ? `${lead} ${units}` : `${lead} Small print: ${units}`;
}

function rung(map: StabilityMap, facts: FieldFacts, scales: Scales, step: LadderStep, at: number): Piece {
  const words = stepWords(map, at);
  // The first is what is flown next; the others are short until they are asked for.
  return html`<li><details class="rung ${step.stage}"${at === 0 ? html` open` : ""}>
<summary><h3 id="step-${at + 1}"><span class="no">${at + 1}</span> ${words.title}</h3>${AXES.map((axis) => summaryGains(step, axis))}</summary>
<div class="rung-body">
<div class="rung-head">
<p>Fly: ${manoeuvreWords(map, step)}.</p>
<p class="pack">${packWords(facts, step.condition, step.stage === "check" ? (map.ladder?.steps[0]?.condition ?? null) : null)}</p>
</div>
${AXES.map((axis) => axisPart(map, scales, at, axis))}
<dl class="watch">
${words.change === null ? "" : html`<div class="change"><dt>New</dt><dd>${words.change}</dd></div>`}
<div><dt>Look</dt><dd>${words.look}</dd></div>
<div><dt>Listen</dt><dd>${words.listen}</dd></div>
<div class="land"><dt>Land</dt><dd>at once if ${words.land}.</dd></div>
</dl>
</div>
</details></li>`;
}

function summaryGains({ axes }: LadderStep, axis: Axis): Piece | string {
  const tune = axes[axis];
  return tune === undefined ? "" : html` <span class="sets">${AXIS_TITLES[axis]} ${gainCells(tune)}</span>`;
}

function axisPart(map: StabilityMap, scales: Scales, at: number, axis: Axis): Piece {
  const tune = map.ladder?.steps[at]?.axes[axis];
  if (tune === undefined)
    return html`<div class="rung-axis"><p>${AXIS_TITLES[axis]}: no starting tune, nothing to climb to.</p></div>`;
  const kinds = tune.trials.flatMap(({ manoeuvre }) => map.ladder?.manoeuvres[manoeuvre]?.kind ?? []);
  return html`<div class="rung-axis">
<p class="sets"><strong>${AXIS_TITLES[axis]}</strong> ${gainCells(tune)}</p>
<div class="traces">${pictures(map, scales, at, axis).map(({ piece }) => piece)}</div>
<ul class="predicted">${kinds.map((kind) => html`<li>${capital(measuredWords(map, tune, kind))}</li>`)}</ul>
</div>`;
}
