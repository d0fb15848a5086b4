// The flight-test card: the ladder on two printed pages, with boxes to tick and lines to write on.
import type { StabilityMap } from "../../map/format.js";
import type { LadderStep } from "../../map/ladder-format.js";
import { sureOf } from "../../map/sure.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { anyHolds, ofDraws, SIMULATED_CRAFT, startShareWords } from "../../words/confidence-words.js";
import { capital } from "../../words/limit-words.js";
import { printableMap } from "../../words/printable.js";
import { LAND_ALWAYS, manoeuvreWords, stepWords } from "../../words/step-words.js";
import { measuredWords } from "../../words/tune-words.js";
import { roundWords, unchangedWords } from "../../words/unchanged-words.js";
import { gainCells } from "../ladder/gains.js";
import { pictures } from "../ladder/pictures.js";
import { type Scales, scalesOf } from "../ladder/scales.js";
import { head } from "../page/head.js";
import { html, type Piece } from "../page/html.js";
import { scaleWords, unitWords } from "../page/ladder.js";
import { unsealedLine } from "../page/unsealed-line.js";
import { answers, blank, motors, tick } from "./answers.js";
import { questionsOf } from "./questions.js";
import { CARD_STYLE } from "./style.js";

const CHECKS = Object.freeze([
  "props tight, unbent, right way round",
  "pack full, strapped, not swollen",
  "people and animals behind me",
  "signal-loss landing tested",
  "old gains written down",
]);

/** The card as one HTML text; the same map gives the same bytes. */
export async function renderCard(map: StabilityMap): Promise<string> {
  const fit = printableMap(map);
  const { name, version } = fit.airframe;
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(`${name} ${version}: flight-test card`, CARD_STYLE)}
<body>
<main>
<header>
<p class="series">Gainscape flight-test card</p>
<h1>${name} ${version}</h1>
${unsealedLine(fit)}<p class="blanks">${["Date", "Pilot", "Place", "Wind"].map(blank)}</p>
</header>
${fit.ladder === undefined ? noClimb(fit) : sheets(fit)}
</main>
</body>
</html>
`;
  return page.toString();
}

const noClimb = (map: StabilityMap): Piece => html`<section>
<h2>No flight planned</h2>
${AXES.map((axis) => html`<p><strong>${AXIS_TITLES[axis]}: ${whyNoClimb(map, axis)}</p>`)}
</section>`;

function whyNoClimb(map: StabilityMap, axis: Axis): Piece {
  const { start, startReason } = map.axes[axis];
  if (start === null) return html`no starting tune.</strong> ${startReason ?? ""}`;
  return html`no climb in this map.</strong> It was written before climbs were planned; sweep again.`;
}

function sheets(map: StabilityMap): Piece {
  const ladder = map.ladder ?? { steps: [], manoeuvres: [] };
  const scales = scalesOf(ladder);
  const numbered = ladder.steps.map((step, at) => ({ step, at }));
  const flights = (stage: LadderStep["stage"], title: string, named: string) => {
    const here = numbered.filter(({ step }) => step.stage === stage);
    const [first] = here;
    if (first === undefined) return html``;
    return html`<section class="${named}"><h2>${title} <small>${packWords(map, first.step)}</small></h2>
<ol class="flights">${here.map(({ step, at }) => flight(map, scales, step, at))}</ol></section>`;
  };
  return html`<p class="before"><strong>Before every flight</strong> ${CHECKS.map(tick)}</p>
<p class="before"><strong>Land at once</strong> if ${LAND_ALWAYS}. Go back a step; ask somebody who knows before you go on.</p>
<p class="before"><strong>Gains</strong> ${unchangedWords(map)} ${roundWords(map)}</p>
<p class="before"><strong>After every flight</strong> write what was set if it was other gains, and answer what you saw: these boxes are what a flight file takes. Swings: how
often it swung back after the manoeuvre. Slower or faster: than the swing of its picture. Leave the rest empty.</p>
${sureLine(map)}${flights("p", "Climb in P, at low D", "climb-p")}
${flights("d", "Climb in D", "climb-d")}
${flights("check", "Check the finished tune", "checks")}
${record(map, scales)}`;
}

/** How sure the tune at the top of the climb is; nothing where the map's sweep asked for no draws. */
function sureLine(map: StabilityMap): Piece | string {
  const { uncertainty, uncertaintyReason } = map;
  if (uncertaintyReason !== undefined)
    return html`<p class="before"><strong>How sure</strong> nobody can say: ${uncertaintyReason}</p>
`;
  if (uncertainty === undefined) return "";
  const shares = AXES.flatMap((axis) => {
    const sure = sureOf(map, map.axes[axis]);
    if (sure === null || sure.start === null) return [];
    const ground = anyHolds(sure) ? "" : `; no tune is safe in ${ofDraws(sure.confidence)}`;
    return [`${AXIS_TITLES[axis]} tune: safe in ${startShareWords(sure.start)}${ground}.`];
  });
  return html`<p class="before"><strong>How sure</strong> ${shares.join(" ")} The map calls safe what is safe in ${ofDraws(uncertainty.confidence)}. ${capital(SIMULATED_CRAFT)}.</p>
`;
}

/** The pack of a stage, and what does not change from flight to flight. */
function packWords(map: StabilityMap, step: LadderStep): Piece {
  const pack = `${capital(step.condition)}.`;
  if (step.stage !== "check") return html`${pack} Each flight: ${manoeuvreWords(map, step)}.`;
  return html`${pack} Each flight at ${AXES.map((axis) => sets(step, axis))}`;
}

function flight(map: StabilityMap, scales: Scales, step: LadderStep, at: number): Piece {
  const words = stepWords(map, at);
  const check = step.stage === "check";
  return html`<li class="flight ${step.stage}">
<div class="do"><h3><span class="no">${at + 1}</span> ${words.title}</h3>
${check ? html`<p>${capital(manoeuvreWords(map, step))}.</p>` : AXES.map((axis) => sets(step, axis))}${motors()}</div>
<div class="traces">${AXES.map((axis) => axisPictures(map, scales, step, axis))}</div>
<div class="see">${AXES.map((axis) => predicted(map, step, axis))}
<p><b>Look</b> ${words.look} <b>Listen</b> ${words.listen} <b class="land">Land if</b> ${words.land}.</p></div>
${answers(questionsOf(map).filter((question) => question.step === at))}
</li>`;
}

function sets({ axes }: LadderStep, axis: Axis): Piece {
  const tune = axes[axis];
  return tune === undefined ? html`` : html`<span class="sets">${AXIS_TITLES[axis]} ${gainCells(tune)}</span>`;
}

function axisPictures(map: StabilityMap, scales: Scales, { axes }: LadderStep, axis: Axis): Piece {
  const tune = axes[axis];
  return tune === undefined ? html`` : html`${pictures(map, scales, axis, tune)}`;
}

function predicted(map: StabilityMap, { axes }: LadderStep, axis: Axis): Piece {
  const tune = axes[axis];
  if (tune === undefined) return html``;
  const kinds = tune.trials.flatMap(({ manoeuvre }) => map.ladder?.manoeuvres[manoeuvre]?.kind ?? []);
  const words = kinds.map((kind) => measuredWords(map, tune, kind)).join("; ");
  return html`<p><b>${AXIS_TITLES[axis]}</b> ${words}.</p>`;
}

/** The record of the day, and what the card is based on. */
function record(map: StabilityMap, scales: Scales): Piece {
  return html`<section class="record"><h2>The tune that flew</h2>
<p class="blanks">${AXES.map((axis) => html`<strong>${AXIS_TITLES[axis]}</strong> ${["P", "D", "I"].map(blank)}`)}<strong>Hovers at</strong> ${blank("throttle, %")}<span class="blank wide">Signed</span></p>
<p class="small">${scaleWords(scales)} ${unitWords(map)} A model's estimate; local rules and the qualified people at the field come first. ${capital(map.airframe.title)}; craft ${map.airframe.digest.slice(0, 12)}, sweep ${map.sweep.digest.slice(0, 12)}, ${map.product.name} ${map.product.version}.</p>
</section>`;
}
