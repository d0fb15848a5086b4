// The steps of the ladder on a card: gains, what to fly, its pictures, what is new in it, boxes for what was seen.
import type { FieldFacts } from "../../map/field-facts.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderStage, LadderStep } from "../../map/ladder-format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { capital } from "../../words/limit-words.js";
import { packWords } from "../../words/pack-words.js";
import { manoeuvreWords, stepWords } from "../../words/step-words.js";
import { briefWords } from "../../words/tune-words.js";
import { gainCells } from "../ladder/gains.js";
import { type Picture, pictures } from "../ladder/pictures.js";
import type { Scales } from "../ladder/scales.js";
import { html, type Piece } from "../page/html.js";
import { answers, motors } from "./answers.js";
import { questionsOf } from "./questions.js";

/** What every step of a card is drawn from. */
export interface Climb {
  readonly map: StabilityMap;
  readonly facts: FieldFacts;
  readonly scales: Scales;
  /** The craft is held: nobody flies, nobody lands. */
  readonly onStand: boolean;
}

/** Height of a picture at a width of 150: four in a row, four steps on the first page. */
const LOW = 53;

interface Stage {
  readonly stage: LadderStage;
  readonly title: string;
  readonly named: string;
}

export const STAGES: readonly Stage[] = Object.freeze([
  { stage: "p", title: "Climb in P, at low D", named: "climb-p" },
  { stage: "d", title: "Climb in D", named: "climb-d" },
  { stage: "check", title: "Check the finished tune", named: "checks" },
]);

/** The flights of one stage; nothing where it has none. `beside` follows the last of them. */
export function stageFlights(
  climb: Climb,
  { stage, title, named }: Stage,
  beside: Piece | string = "",
): Piece | string {
  const { map, facts } = climb;
  const here = (map.ladder?.steps ?? []).flatMap((step, at) => (step.stage === stage ? [{ step, at }] : []));
  const [first] = here;
  if (first === undefined) return beside;
  const fresher = stage === "check" ? (map.ladder?.steps[0]?.condition ?? null) : null;
  return html`<section class="${named}"><h2>${title} <small>${packWords(facts, first.step.condition, fresher)}${
    stage === "check" ? html` Each at ${gainsOf(first.step)}` : ""
  }</small></h2>
<ol class="flights">${here.map(({ step, at }) => flight(climb, step, at))}${beside === "" ? "" : html`<li class="beside">${beside}</li>`}</ol></section>`;
}

function flight({ map, scales, onStand }: Climb, step: LadderStep, at: number): Piece {
  const { title, change, look, listen, land } = stepWords(map, at);
  const check = step.stage === "check";
  return html`<li class="flight ${step.stage}">
<div class="do"><h3><span class="no">${at + 1}</span> ${title}</h3>${check ? "" : gainsOf(step)}${motors()}</div>
<p class="fly"><b>${onStand ? "Do" : "Fly"}</b> ${manoeuvreWords(map, step)}.</p>
<div class="traces">${AXES.map((axis) => pictures(map, scales, at, axis, LOW).map((picture) => figure(map, step, axis, picture)))}</div>
<p class="see"><b>Look</b> ${change ?? look} <b>Listen</b> ${listen} <b class="land">${onStand ? "Cut the power if" : "Land if"}</b> ${land}.</p>
${answers(
  questionsOf(map).filter((question) => question.step === at),
  check,
)}
</li>`;
}

/** Every axis of a step with its gains. */
const gainsOf = ({ axes }: LadderStep): Piece[] =>
  AXES.flatMap((axis) => {
    const tune = axes[axis];
    return tune === undefined ? [] : [html`<span class="sets">${AXIS_TITLES[axis]} ${gainCells(tune)}</span>`];
  });

function figure(map: StabilityMap, { axes }: LadderStep, axis: Axis, { manoeuvre, piece }: Picture): Piece {
  const tune = axes[axis];
  const words = tune === undefined ? "" : briefWords(map, tune, manoeuvre.kind);
  return html`<figure>${piece}<figcaption>${capital(words)}</figcaption></figure>`;
}
