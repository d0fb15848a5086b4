// The report of one run as a single file that opens from disk, with no script and no network.
import type { StabilityMap } from "../../map/format.js";
import { AXES } from "../axes.js";
import { reliefSvg } from "../charts/relief.js";
import { count } from "../numbers.js";
import { printableMap } from "../printable.js";
import { cautions } from "./cautions.js";
import { conditions } from "./conditions.js";
import { head } from "./head.js";
import { html, type Piece, raw } from "./html.js";
import { LADDER_STYLE } from "../ladder/style.js";
import { ladder } from "./ladder.js";
import { maps } from "./maps.js";
import { provenance } from "./provenance.js";
import { STYLE } from "./style.js";
import { expectations, room } from "./tables.js";
import { theory } from "./theory.js";
import { THEORY_STYLE } from "./theory-style.js";
import { whereToStart } from "./where-to-start.js";

const CHAPTERS: readonly (readonly [id: string, title: string])[] = [
  ["start", "Start"],
  ["cautions", "Cautions"],
  ["map", "Map"],
  ["ladder", "Ladder"],
  ["throttle", "Throttle and pack"],
  ["room", "Room"],
  ["expect", "What to expect"],
  ["theory", "Against theory"],
  ["assumed", "Assumed"],
  ["provenance", "Provenance"],
];

const chaptersOf = (map: StabilityMap) =>
  CHAPTERS.filter(
    ([id]) =>
      (id !== "ladder" || map.ladder !== undefined) &&
      (id !== "theory" || AXES.some((name) => map.axes[name].boundary.theory !== undefined)),
  );

function masthead(map: StabilityMap): Piece {
  const points = count(map.grid.p.length * map.grid.d.length);
  const flights = count(map.provenance.trials);
  const size = `${points} pairs of P and D on ${AXES.join(" and ")}, ${flights} simulated flights`;
  return html`<header class="masthead">
${raw(reliefSvg(map, "roll"))}
<p class="series">Gainscape stability map</p>
<h1>${map.airframe.name} ${map.airframe.version}</h1>
<p class="sub">${map.airframe.title}. ${map.sweep.title}: ${size}.</p>
<nav aria-label="Chapters"><ul>${chaptersOf(map).map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>
</header>`;
}

/** The page as one HTML text; the same map gives the same bytes. */
export async function renderPage(map: StabilityMap): Promise<string> {
  const fit = printableMap(map);
  const parts = [whereToStart(fit), maps(fit), conditions(fit), theory(fit)];
  const [first, figures, boundaries, againstTheory] = await Promise.all(parts);
  const page = await html`<!doctype html>
<html lang="en">
${head(`${fit.airframe.name} ${fit.airframe.version}: where to start`, STYLE + LADDER_STYLE + THEORY_STYLE)}
<body>
${masthead(fit)}
<main>
${first}
${cautions()}
${figures}
${ladder(fit)}
${boundaries}
${room(fit)}
${expectations(fit)}
${againstTheory}
${provenance(fit)}
</main>
<footer><p>A model's estimate, made before the first flight. Climb to it with care.</p></footer>
</body>
</html>
`;
  return page.toString();
}
