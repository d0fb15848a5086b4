// The flight file beside a card: one sighting per step and axis with its gains, its answers behind a # until somebody gives them.
// What `check` says of one that is not filled in is one line per sighting; what was not flown is cut out.
import { canonicalJson } from "../../base/canonical.js";
import { digestOf } from "../../base/digest.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderTune } from "../../map/ladder-format.js";
import { printableMap } from "../../words/printable.js";
import { stepWords } from "../../words/step-words.js";
import { type Question, questionsOf } from "./questions.js";

export interface CardFlightOptions {
  /** Path of the model from where the file will lie. */
  readonly model: string;
  /** Names of scripts that a sighting may name. */
  readonly manoeuvres: readonly string[];
  readonly format: string;
}

const END = "# as printed: ";

/** The file's text; null where the map plans no climb. */
export function cardFlight(map: StabilityMap, options: CardFlightOptions): string | null {
  const fit = printableMap(map);
  const questions = questionsOf(fit);
  if (questions.length === 0) return null;
  const { name, version } = fit.airframe;
  const text = `${head(`${name} ${version}`)}
format: ${options.format}
title: ${canonicalJson(`ladder of ${name} ${version}`.slice(0, LONGEST_TITLE))}
# date: 2026-05-14
# notes: what else was seen
model: ${canonicalJson(options.model)}
sightings:
  # - {hover_throttle: 31 % ± 2 %} # take away the # and write your own number
${questions.map((question) => sighting(fit, question, options.manoeuvres)).join("")}`;
  return `${text}${END}${digestOf(text)}\n`;
}

const LONGEST_TITLE = 120;

const head = (craft: string): string => `# What was seen while the flight-test card of ${craft} was flown.
# 1. Cut out every sighting that was not flown.
# 2. Write the gains that were set, where they were others.
# 3. Take away the "# " before each answer you can give, and leave the word that is true. What nobody saw keeps its "#".
# 4. "gainscape check" on this file says what is missing; "gainscape fit" on it makes a better model of it.
# Enter an oscillation that did not die out only if it happened by itself. Never fly one on purpose.`;

/** Keys stand in line: an answer keeps its place when its "# " is taken away. */
function sighting(
  map: StabilityMap,
  { step, axis, tune, manoeuvre, counted, picture }: Question,
  known: readonly string[],
): string {
  const named = known.includes(manoeuvre.script) ? `    manoeuvre: ${manoeuvre.script}\n` : "";
  const pace =
    picture === null
      ? ""
      : `    # picture: ${picture} Hz # goes with the line below\n    # pace: slower, same or faster than that\n`;
  return `
  - axis: ${axis} # step ${step + 1}: ${stepWords(map, step).title}
    gains: ${gainsText(tune)}
${named}    # died_out: yes or no
${counted ? "    # swings: how often it swung back\n" : ""}${pace}    # motors: cool, warm or hot
`;
}

/** As the card prints them: the controller's own numbers where the model declares a scale. */
function gainsText({ p, d, own }: LadderTune): string {
  const figure = (value: number) => String(Number(value.toPrecision(3)));
  return own === null
    ? `{p: ${figure(p)} %/(100 deg/s), d: ${figure(d)} %/(1000 deg/s^2)}`
    : `{p: ${figure(own.p)}, d: ${figure(own.d)}}`;
}

/** Whether a file is as it was written: nobody has filled anything in. */
export function isAsPrinted(text: string): boolean {
  const end = text.lastIndexOf(END);
  return end >= 0 && text.slice(end) === `${END}${digestOf(text.slice(0, end))}\n`;
}
