// What the fit rests on: the boundary's band, the responses, the part of the log it never saw, and what was seen.
import { bandSvg } from "../../charts/fit/band.js";
import { BROAD, keptOutSvg } from "../../charts/fit/kept-out.js";
import { FIT_LINES } from "../../charts/fit/lines.js";
import { type ResponseSize, responsePlots } from "../../charts/fit/response.js";
import { lineSwatch, pinnedSwatch } from "../../charts/swatches.js";
import type { FitFile, KeptOut, ResponseOfAxis } from "../../fit/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import {
  bandTitle,
  bandWords,
  keptOutTitle,
  keptOutWords,
  misfitWords,
  responseTitle,
} from "../../words/fit/titles.js";
import { withUnit } from "../../words/numbers.js";
import { html, type Piece, raw } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";
import { figure } from "./figure.js";

const WIDE: ResponseSize = Object.freeze({ width: 520, letters: 14 });
const NARROW: ResponseSize = Object.freeze({ width: 262, letters: 13 });
const BAND_HEIGHT = 320; // px

const entry = (sign: string, title: string, meaning: string): Piece =>
  html`<li>${raw(sign)}<span><b>${title}</b> ${meaning}</span></li>`;

export async function boundary({ axes }: FitFile): Promise<Piece> {
  const figures = AXES.map(async (name) => {
    const axis = axes[name];
    const draw = (size: ResponseSize) => bandSvg(axis, { ...size, height: BAND_HEIGHT });
    return figure(bandTitle(name, axis), bandWords(axis), { wide: [await draw(WIDE)], narrow: [await draw(NARROW)] });
  });
  return html`
<section aria-labelledby="boundary">
<h2 id="boundary">The boundary, before and after</h2>
<p class="lead">Above the line an oscillation keeps itself alive, at the worst throttle and pack. The tinted band holds 90 of 100 draws,
each a craft within the spreads; sweeping the fitted model gives the same band.</p>
<div class="key"><ul aria-label="Lines">
${entry(lineSwatch(FIT_LINES.before), "Model before", "Half of the draws, grey band about it.")}
${entry(lineSwatch(FIT_LINES.after), "Fitted", "Half of the draws, brown band about it.")}
${entry(pinnedSwatch(), "Tune flown", "Gains as the flight file gives them.")}
</ul></div>
<div class="pair">${await Promise.all(figures)}</div>
</section>`;
}

export async function responses({ axes }: FitFile): Promise<Piece | string> {
  const shown = AXES.flatMap((name) => {
    const { response } = axes[name];
    return response === null ? [] : [{ name, response }];
  });
  if (shown.length === 0) return "";
  const figures = await Promise.all(shown.map(({ name, response }) => responseFigure(name, response)));
  return html`
<section aria-labelledby="response">
<h2 id="response">What a command does, measured and fitted</h2>
<p class="lead">From the command of an axis to the angular acceleration it causes, frequency by frequency. The amplitude begins at
the authority and falls beyond the lag; a delay turns the phase further down. Coherence says how much of the rate the command
explains: 1 all, 0 nothing. The grey ground is the error of what was measured, two standard deviations; where little is coherent it is wide
and weighs little.</p>
<div class="key"><ul aria-label="Lines">
${entry(lineSwatch(FIT_LINES.measured), "Measured", "With its error as a grey ground.")}
${entry(lineSwatch(FIT_LINES.before), "Model before", "What its numbers made of the same command.")}
${entry(lineSwatch(FIT_LINES.after), "Fitted", "What the fitted numbers make of it.")}
</ul></div>
<div class="pair">${figures}</div>
${notModelled(shown)}
</section>`;
}

async function responseFigure(name: Axis, response: ResponseOfAxis): Promise<Piece> {
  const draw = async (size: ResponseSize) => {
    const { amplitude, phase, coherence } = await responsePlots(response, size);
    return [amplitude, phase, coherence];
  };
  return figure(responseTitle(name, response), misfitWords(response), {
    wide: await draw(WIDE),
    narrow: await draw(NARROW),
  });
}

function notModelled(shown: readonly { readonly name: Axis; readonly response: ResponseOfAxis }[]): Piece | string {
  const lines = shown.flatMap(({ name, response }) =>
    response.notModelled.map(
      ({ frequency_Hz, text }) => `${AXIS_TITLES[name]}, ${withUnit(frequency_Hz, "Hz")}: ${text}`,
    ),
  );
  if (lines.length === 0) return "";
  return html`<h3>What the theory lacks</h3>
<ul class="plain">${lines.map((line) => html`<li>${line}</li>`)}</ul>`;
}

export async function keptOut({ axes }: FitFile): Promise<Piece | string> {
  const shown = AXES.flatMap((name) => {
    const part = axes[name].keptOut;
    return part === null ? [] : [{ name, part }];
  });
  if (shown.length === 0) return "";
  const figures = shown.map(async ({ name, part }) => keptOutFigure(name, part));
  return html`
<section aria-labelledby="kept-out">
<h2 id="kept-out">A part it never saw</h2>
<p class="lead">A model that only repeats its own log proves nothing. This part was left out of the fit; from its commands alone
the fitted model says what the craft would do.</p>
<div class="key"><ul aria-label="Lines">
${entry(lineSwatch(BROAD), "Measured", "The rate in the log, within the band of the fit.")}
${entry(lineSwatch({ ...FIT_LINES.after, width: 1.6 }), "Predicted", "By the fitted model, from the commands.")}
</ul></div>
<div class="pair">${await Promise.all(figures)}</div>
</section>`;
}

const keptOutFigure = async (name: Axis, part: KeptOut): Promise<Piece> =>
  figure(keptOutTitle(name, part), keptOutWords(part), {
    wide: [await keptOutSvg(part, WIDE.width)],
    narrow: [await keptOutSvg(part, NARROW.width)],
  });

export function seen({ sightings = [] }: FitFile): Piece | string {
  if (sightings.length === 0) return "";
  return html`
<section aria-labelledby="seen">
<h2 id="seen">What was seen and heard</h2>
${scrolling(
  "Sightings beside the model",
  html`<table class="remarks">
<thead><tr><th scope="col">Seen</th><th scope="col" class="text">Model before</th><th scope="col" class="text">Fitted</th></tr></thead>
<tbody>${sightings.map(({ text, before, after }) => html`<tr><th scope="row">${text}</th><td class="text">${before}</td><td class="text">${after}</td></tr>`)}</tbody>
</table>`,
)}
</section>`;
}
