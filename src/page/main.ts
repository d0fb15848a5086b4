// The script of the report: makes the maps and the trial panel interactive. The page is complete without it.
import { at } from "../base/at.js";
import { byId } from "./dom.js";
import { kernelsIn } from "./kernels.js";
import { drawSwitch } from "./map/draw-switch.js";
import { explorer } from "./map/explorer.js";
import { type PageMap, readPageMap } from "./page-map.js";
import { drawSimulator, simulatorOf } from "./simulator.js";
import { trialPanel } from "./trial/panel.js";
import { consoleApi } from "./trial/trial.js";

const pageMap = readPageMap(document);
if (pageMap !== null) start(pageMap);

function start(pageMap: PageMap): void {
  const kernelFor = kernelsIn(document);
  const { simulation } = pageMap;
  const simulator = simulation === null ? null : simulatorOf(simulation, kernelFor);
  const shownDraw = drawSwitch(pageMap);
  if (simulator !== null) Object.assign(globalThis, { gainscape: consoleApi(pageMap, simulator) });
  const panel =
    simulator === null || simulation === null
      ? null
      : trialPanel(pageMap, simulator, shownDraw, (draw) => drawSimulator(simulation, draw, kernelFor));
  if (panel !== null) {
    const { start } = pageMap.tunes.roll;
    byId("trial").hidden = false;
    for (const link of document.querySelectorAll<HTMLElement>("[data-live]")) link.hidden = false;
    const { p, d } = pageMap.axes.roll.grid;
    panel.open("roll", start?.p ?? at(p, 0), start?.d ?? at(d, 0));
  }
  document.documentElement.classList.add("live");
  explorer(pageMap, simulator, shownDraw, (axis, p, d, view) => {
    if (panel === null) return; // a map whose trials cannot be simulated here
    panel.show(axis, p, d, view);
    byId("trial-title").focus();
    byId("trial").scrollIntoView();
  });
}
