// The flight-test card: first flight and ladder on two printed pages, with boxes to tick and lines to write on.
import { fieldFacts } from "../../map/field-facts.js";
import type { StabilityMap } from "../../map/format.js";
import { AXIS_TITLES, type Axis } from "../../words/axes.js";
import { groundedAxes } from "../../words/grounded-words.js";
import { printable, printableMap } from "../../words/printable.js";
import { scalesOf } from "../ladder/scales.js";
import { head } from "../page/head.js";
import { html, type Piece } from "../page/html.js";
import { unsealedLine } from "../page/unsealed-line.js";
import { blank } from "./answers.js";
import { beforeFlights, beforeStand } from "./before.js";
import { type Climb, STAGES, stageFlights } from "./flights.js";
import { groundedSheet, olderSheet } from "./grounded.js";
import { basis, record } from "./record.js";
import { CARD_STYLE, UNSEALED_STYLE } from "./style.js";
import { onTestStand } from "./test-stand.js";

export interface CardOptions {
  /** One axis alone, for a craft held on a test stand; left out: the whole craft, to fly. */
  readonly testStand?: Axis | undefined;
}

/** The card as one HTML text; the same map gives the same bytes. */
export async function renderCard(map: StabilityMap, { testStand }: CardOptions = {}): Promise<string> {
  const fit = printableMap(map);
  const shown = testStand === undefined ? fit : onTestStand(fit, testStand);
  const facts = printable(fieldFacts(map));
  const { name, version } = fit.airframe;
  const title = testStand === undefined ? "flight-test card" : "test-stand card";
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(`${name} ${version}: ${title}`, fit.unsealed ? CARD_STYLE + UNSEALED_STYLE : CARD_STYLE)}
<body>
<main>
<header>
<h1>${name} ${version}</h1>
<p class="series">Gainscape ${title}</p>
${unsealedLine(fit)}<p class="blanks">${["Date", "Pilot", "Place", "Wind"].map(blank)}</p>
</header>
${sheets({ map: shown, facts, scales: scalesOf(shown.ladder ?? { steps: [], manoeuvres: [] }), onStand: testStand !== undefined }, testStand)}
</main>
</body>
</html>
`;
  return page.toString();
}

function sheets(climb: Climb, testStand: Axis | undefined): Piece {
  const { map, facts, scales } = climb;
  if (testStand !== undefined)
    return html`<p class="banner">${AXIS_TITLES[testStand]} alone, on a test stand that holds the craft. Never for flight.</p>
${beforeStand(map, facts)}${STAGES.map((stage) => stageFlights(climb, stage))}${basis(map, scales)}`;
  const grounded = groundedAxes(map);
  if (grounded.length > 0) return groundedSheet(map, grounded);
  if (map.ladder === undefined) return olderSheet();
  return html`${beforeFlights(map, facts)}${STAGES.map((stage) => stageFlights(climb, stage, stage.stage === "check" ? record() : ""))}${basis(map, scales)}`;
}
