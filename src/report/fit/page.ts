// What flights say about a model, as a single file that opens from disk, with no script and no network.
import type { FitFile } from "../../fit/format.js";
import { count } from "../../words/numbers.js";
import { printable } from "../../words/printable.js";
import { head } from "../page/head.js";
import { html, type Piece } from "../page/html.js";
import { answer } from "./answer.js";
import { cautions } from "./cautions.js";
import { boundary, keptOut, responses, seen } from "./evidence.js";
import { numbers } from "./numbers.js";
import { origin } from "./origin.js";
import { FIT_STYLE } from "./style.js";
import { next, remarks, silent, units } from "./told.js";

const CHAPTERS: readonly (readonly [id: string, title: string, there: (fit: FitFile) => boolean])[] = [
  ["answer", "Answer", () => true],
  ["cautions", "Cautions", () => true],
  ["next", "What next", () => true],
  ["boundary", "Boundary", () => true],
  ["numbers", "Numbers", () => true],
  ["response", "Response", ({ axes }) => axes.roll.response !== null || axes.pitch.response !== null],
  ["kept-out", "Never seen", ({ axes }) => axes.roll.keptOut !== null || axes.pitch.keptOut !== null],
  ["seen", "Seen", ({ sightings = [] }) => sightings.length > 0],
  ["units", "Units", ({ units: all }) => all.length > 0],
  ["silent", "Not told", ({ silent: all }) => all.length > 0],
  ["remarks", "Remarks", ({ remarks: all }) => all.length > 0],
  ["provenance", "Provenance", () => true],
];

function masthead(fit: FitFile): Piece {
  const { model, flights } = fit;
  const titles = flights.map(({ title, date }) => `${title}${date === null ? "" : ` (${date})`}`);
  return html`<header class="masthead">
<p class="series">Gainscape fit</p>
<h1>${model.name} ${model.version}, back from the field</h1>
<p class="sub">${flights.length === 1 ? "One flight" : `${count(flights.length)} flights`}: ${titles.join("; ")}.</p>
<nav aria-label="Chapters"><details><summary>Chapters</summary><ul>${CHAPTERS.filter(([, , there]) => there(fit)).map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></details></nav>
</header>`;
}

/** The page as one HTML text; the same fit gives the same bytes. */
export async function fitPage(file: FitFile): Promise<string> {
  const fit = printable(file);
  const [band, measured, predicted] = await Promise.all([boundary(fit), responses(fit), keptOut(fit)]);
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(`${fit.model.name} ${fit.model.version}: what was flown`, FIT_STYLE)}
<body>
${masthead(fit)}
<main>
${answer(fit)}
${cautions()}
${next(fit)}
${band}
${numbers(fit)}
${measured}
${predicted}
${seen(fit)}
${units(fit)}
${silent(fit)}
${remarks(fit)}
${origin(fit)}
</main>
<footer><p>A model's estimate, fitted to what was flown. Climb to every new tune step by step.</p></footer>
</body>
</html>
`;
  return page.toString();
}
