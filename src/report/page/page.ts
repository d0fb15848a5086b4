// The report of one run as a single file that opens from disk, with no network: complete without its script, livelier with it.
import { pointCount } from "../../base/sizes.js";
import { reliefSvg } from "../../charts/relief.js";
import { fieldFacts } from "../../map/field-facts.js";
import type { StabilityMap } from "../../map/format.js";
import { modelSheet } from "../../map/model-sheet.js";
import { AXES } from "../../words/axes.js";
import { gridWords } from "../../words/grid-words.js";
import { notSimulatedWords } from "../../words/not-simulated-words.js";
import { count } from "../../words/numbers.js";
import { printable, printableMap } from "../../words/printable.js";
import { LADDER_STYLE } from "../ladder/style.js";
import { cautions } from "./cautions.js";
import { CHAPTERS_STYLE, chapter, chaptersOf, contents } from "./chapters.js";
import { conditions } from "./conditions.js";
import { firstFlight } from "./first-flight.js";
import { GROUNDED_STYLE, groundedNotice, groundedTitle } from "./grounded.js";
import { head } from "./head.js";
import { html, type Piece, raw } from "./html.js";
import { ladder } from "./ladder.js";
import { LIVE_STYLE } from "./live-style.js";
import { maps } from "./maps.js";
import { assumed, provenance } from "./provenance.js";
import { type PageKernels, scripts, standsAlone } from "./scripts.js";
import { doubtLine, sheetSection } from "./sheet.js";
import { SHEET_STYLE } from "./sheet-style.js";
import { STRIPS_STYLE, strips } from "./strips.js";
import { STYLE } from "./style.js";
import { howSure, SURE_STYLE } from "./sure.js";
import { expectations, room } from "./tables.js";
import { theory } from "./theory.js";
import { THEORY_STYLE } from "./theory-style.js";
import { trialPanel } from "./trial-panel.js";
import { unsealedLine } from "./unsealed-line.js";
import { whereToStart } from "./where-to-start.js";

function masthead(map: StabilityMap): Piece {
  const points = gridWords(map, (grid) => `${count(pointCount(grid))} pairs of P and D`);
  const trials = count(map.provenance.trials);
  const size = `${points} on ${AXES.join(" and ")}, ${trials} simulated trials`;
  return html`<header class="masthead">
${raw(reliefSvg(map, "roll"))}
<p class="series">Gainscape stability map</p>
<h1>${map.airframe.name} ${map.airframe.version}</h1>
<p class="sub">${map.airframe.title}. ${map.sweep.title}: ${size}.</p>
${unsealedLine(map)}${cardLine(map)}
</header>`;
}

/** At the field nobody looks for it further down. */
const cardLine = (map: StabilityMap): Piece | string =>
  map.ladder === undefined
    ? ""
    : html`<p class="sub"><a href="card.html">The flight-test card</a>: first flight and climb on two printed pages.</p>`;

const pageStyle = ({ uncertainty, strips: asked }: StabilityMap): string =>
  [
    STYLE,
    CHAPTERS_STYLE,
    GROUNDED_STYLE,
    LADDER_STYLE,
    THEORY_STYLE,
    SHEET_STYLE,
    LIVE_STYLE,
    ...(asked === undefined ? [] : [STRIPS_STYLE]),
    ...(uncertainty === undefined ? [] : [SURE_STYLE]),
  ].join("");

/**
 * The page as one HTML text; the same map gives the same bytes. `script` is the page's own, built from src/page; without
 * it the page is pictures and words. With `kernels` it simulates whole maps several times as fast.
 */
export async function renderPage(
  map: StabilityMap,
  script: string | null = null,
  kernels: PageKernels = [],
): Promise<string> {
  if (script !== null && !standsAlone(script)) throw new RangeError("the page's script would end its own element");
  const fit = printableMap(map);
  const notSimulated = printable(notSimulatedWords(map));
  const sheet = printable(modelSheet(map));
  const facts = printable(fieldFacts(map));
  const [first, figures, boundaries, againstTheory] = await Promise.all([
    whereToStart(fit),
    maps(fit),
    conditions(fit),
    theory(fit),
  ]);
  const chapters = chaptersOf(fit, script !== null && notSimulated === null, sheet);
  const inChapter = (id: string, section: Piece | string) => chapter(chapters, id, section);
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(`${fit.airframe.name} ${fit.airframe.version}: ${groundedTitle(fit) === null ? "where to start" : "do not fly"}`, pageStyle(map), script, kernels.length > 0)}
<body>
${masthead(fit)}
${contents(chapters)}
<main>
${groundedNotice(fit)}${first}
${doubtLine(sheet)}
${cautions()}
${firstFlight(fit, facts)}
${ladder(fit, facts)}
${figures}
${script === null ? "" : notSimulated === null ? trialPanel(fit) : html`<p class="lead">${notSimulated}</p>`}
${inChapter("strips", strips(fit))}
${inChapter("sure", howSure(fit, sheet))}
${inChapter("throttle", boundaries)}
${inChapter("room", room(fit))}
${inChapter("expect", expectations(fit))}
${inChapter("theory", againstTheory)}
${inChapter("sheet", sheetSection(sheet))}
${inChapter("assumed", assumed(fit))}
${inChapter("provenance", provenance(fit))}
</main>
<footer><p>A model's estimate, made before the first flight. ${groundedTitle(fit) === null ? "Climb to it with care." : "Do not fly."}</p></footer>
${scripts(map, script, kernels)}</body>
</html>
`;
  return page.toString();
}
