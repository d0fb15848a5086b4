// The report of one run as a single file that opens from disk, with no script and no network.
import type { StabilityMap } from "../../map/format.js";
import { AXES } from "../axes.js";
import { reliefSvg } from "../charts/relief.js";
import { count } from "../numbers.js";
import { printableMap } from "../printable.js";
import { cautions } from "./cautions.js";
import { conditions } from "./conditions.js";
import { contentPolicy } from "./content-policy.js";
import { html, type Piece, raw } from "./html.js";
import { maps } from "./maps.js";
import { provenance } from "./provenance.js";
import { STYLE } from "./style.js";
import { expectations, room } from "./tables.js";
import { whereToStart } from "./where-to-start.js";

const ICON =
  "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'%3E%3Cpath d='M8 1.5 15 14H1z' fill='%23fbf7ec' stroke='%23a3241c' stroke-width='2' stroke-linejoin='round'/%3E%3C/svg%3E";

const head = (map: StabilityMap): Piece => html`<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${raw(contentPolicy(STYLE))}">
<title>${map.airframe.name} ${map.airframe.version}: where to start</title>
<link rel="icon" href="${raw(ICON)}">
<style>${raw(STYLE)}</style>
</head>`;

const CHAPTERS: readonly (readonly [id: string, title: string])[] = [
  ["start", "Start"],
  ["cautions", "Cautions"],
  ["map", "Map"],
  ["throttle", "Throttle and pack"],
  ["room", "Room"],
  ["expect", "What to expect"],
  ["assumed", "Assumed"],
  ["provenance", "Provenance"],
];

function masthead(map: StabilityMap): Piece {
  const points = count(map.grid.p.length * map.grid.d.length);
  const flights = count(map.provenance.trials);
  const size = `${points} pairs of P and D on ${AXES.join(" and ")}, ${flights} simulated flights`;
  return html`<header class="masthead">
${raw(reliefSvg(map, "roll"))}
<p class="series">Gainscape stability map</p>
<h1>${map.airframe.name} ${map.airframe.version}</h1>
<p class="sub">${map.airframe.title}. ${map.sweep.title}: ${size}.</p>
<nav aria-label="Chapters"><ul>${CHAPTERS.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
</header>`;
}

/** The page as one HTML text; the same map gives the same bytes. */
export async function renderPage(map: StabilityMap): Promise<string> {
  const fit = printableMap(map);
  const [first, figures, boundaries] = await Promise.all([whereToStart(fit), maps(fit), conditions(fit)]);
  const page = await html`<!doctype html>
<html lang="en">
${head(fit)}
<body>
${masthead(fit)}
<main>
${first}
${cautions()}
${figures}
${boundaries}
${room(fit)}
${expectations(fit)}
${provenance(fit)}
</main>
<footer><p>A model's estimate, made before the first flight. Climb to it with care.</p></footer>
</body>
</html>
`;
  return page.toString();
}
