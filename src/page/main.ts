// The script of the report: makes the maps and the trial panel interactive. The page is complete without it.
import { at } from "../base/at.js";
import { byId } from "./dom.js";
import { kernelsIn } from "./kernels.js";
import { explorer } from "./map/explorer.js";
import { type PageMap, readPageMap } from "./page-map.js";
import { simulatorOf } from "./simulator.js";
import { trialPanel } from "./trial/panel.js";
import { consoleApi } from "./trial/trial.js";

const pageMap = readPageMap(document);
if (pageMap !== null) start(pageMap);

function start(pageMap: PageMap): void {
  const simulator = pageMap.simulation === null ? null : simulatorOf(pageMap.simulation, kernelsIn(document));
  if (simulator !== null) Object.assign(globalThis, { gainscape: consoleApi(pageMap, simulator) });
  const panel = simulator === null ? null : trialPanel(pageMap, simulator);
  if (panel !== null) {
    const { start } = pageMap.tunes.roll;
    byId("trial").hidden = false;
    for (const link of document.querySelectorAll<HTMLElement>("[data-live]")) link.hidden = false;
    const { p, d } = pageMap.axes.roll.grid;
    panel.open("roll", start?.p ?? at(p, 0), start?.d ?? at(d, 0));
  }
  document.documentElement.classList.add("live");
  explorer(pageMap, simulator, (axis, p, d, view) => {
    if (panel === null) return; // a map whose trials cannot be simulated here
    panel.show(axis, p, d, view);
    byId("trial-title").focus();
    byId("trial").scrollIntoView();
  });
}
