// The script of the report: wakes the maps and the flight panel of a page that is complete without it.
import { byId } from "./dom.js";
import { kernelsIn } from "./kernels.js";
import { explorer } from "./map/explorer.js";
import { type PageMap, readPageMap } from "./page-map.js";
import { simulatorOf } from "./simulator.js";
import { trialPanel } from "./trial/panel.js";
import { displayRanges } from "./trial/trial.js";

const survey = readPageMap(document);
if (survey !== null) start(survey);

function start(survey: PageMap): void {
  const fleet = survey.flying === null ? null : simulatorOf(survey.flying, kernelsIn(document));
  if (fleet !== null) Object.assign(globalThis, { gainscape: displayRanges(survey, fleet) });
  const panel = fleet === null ? null : trialPanel(survey, fleet);
  if (panel !== null) {
    const { start } = survey.tunes.roll;
    byId("flight").hidden = false;
    for (const link of document.querySelectorAll<HTMLElement>("[data-live]")) link.hidden = false;
    panel.open("roll", start?.p ?? (survey.grid.p[0] as number), start?.d ?? (survey.grid.d[0] as number));
  }
  document.documentElement.classList.add("live");
  explorer(survey, fleet, (axis, p, d) => {
    panel?.fly(axis, p, d);
    byId("fly").focus();
    byId("flight").scrollIntoView();
  });
}
