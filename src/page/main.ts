// The script of the report: wakes the maps and the flight panel of a page that is complete without it.
import { byId } from "./dom.js";
import { fleetOf } from "./fleet.js";
import { flightPanel } from "./flight/panel.js";
import { consoleFace } from "./flight/trial.js";
import { kernelsIn } from "./kernels.js";
import { explorer } from "./map/explorer.js";
import { readSurvey, type Survey } from "./survey.js";

const survey = readSurvey(document);
if (survey !== null) wake(survey);

function wake(survey: Survey): void {
  const fleet = survey.flying === null ? null : fleetOf(survey.flying, kernelsIn(document));
  if (fleet !== null) Object.assign(globalThis, { gainscape: consoleFace(survey, fleet) });
  const panel = fleet === null ? null : flightPanel(survey, fleet);
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
