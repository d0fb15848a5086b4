// The switch above the maps: which measure, and under which throttle level and pack. A level's own map is simulated in
// the page when it is first chosen, and cached.
import { AXES, type Axis } from "../../words/axes.js";
import { BARE, measureWords } from "../../words/measure-words.js";
import { count } from "../../words/numbers.js";
import { byId, make, pause } from "../dom.js";
import { levelMap } from "../level-map.js";
import { levelTheoryDecider } from "../level-theory.js";
import type { PageMap, PageMapAxis } from "../page-map.js";
import type { Level, Simulator } from "../simulator.js";
import type { Subject } from "../subject.js";
import { levelWords } from "../words.js";
import type { Shown, View } from "./view.js";

export function levelSwitch(pageMap: PageMap, simulator: Simulator | null, view: Subject<View>): void {
  const form = byId("map-switch");
  const under = byId<HTMLSelectElement>("map-under");
  const cache = new Map<Level, View["axes"]>();
  form.hidden = false;
  view.watch((now) => {
    byId("map-words").textContent = now.shown === "verdict" ? "" : `${measureWords(pageMap, now.shown)} ${BARE}`;
    for (const part of document.querySelectorAll<HTMLElement>("[data-applies]"))
      if (part.dataset.applies === "level") part.hidden = !applies(part, now);
      else part.classList.toggle("resting", !applies(part, now));
  });
  for (const [index, level] of (simulator?.levels ?? []).entries())
    under.append(make("option", { value: index }, levelWords(level)));
  form.addEventListener("change", async (event) => {
    if (event.target !== under) {
      view.set({ ...view.get(), shown: shownIn(form) });
      return;
    }
    const level = simulator?.levels[Number(under.value)];
    if (simulator === null || under.value === "" || level === undefined) {
      byId("map-status").textContent = "";
      view.set({ ...view.get(), axes: pageMap.axes, level: null });
      return;
    }
    view.set({ ...view.get(), axes: cache.get(level) ?? {}, level });
    const isCurrent = () => view.get().level === level;
    const axes = cache.get(level) ?? (await simulateLevel(pageMap, simulator, level, view, isCurrent));
    if (axes === null) return;
    cache.set(level, axes);
    byId("map-status").textContent = `Simulated in this page: every point under ${levelWords(level)}.`;
  });
}

/** Whether a part of the page applies to the current view: to the verdicts, to one level's, or to everything together. */
function applies({ dataset }: HTMLElement, { shown, level }: View): boolean {
  if (dataset.applies === "verdicts") return shown === "verdict";
  if (dataset.applies === "level") return shown === "verdict" && level !== null;
  return shown === "verdict" && level === null;
}

const shownIn = (form: HTMLElement): Shown => form.querySelector<HTMLInputElement>("input:checked")?.value as Shown;

/** Every axis under the level, each shown as soon as it is simulated; null if the result is no longer wanted. */
async function simulateLevel(
  pageMap: PageMap,
  simulator: Simulator,
  level: Level,
  view: Subject<View>,
  isCurrent: () => boolean,
): Promise<View["axes"] | null> {
  const status = byId<HTMLElement>("map-status");
  const axes: Partial<Record<Axis, PageMapAxis>> = {};
  for (const axis of AXES) {
    const onProgress = ({ done, of }: { done: number; of: number }) => {
      status.textContent = `Simulating ${axis}: ${count(done)} of ${count(of)} trials.`;
    };
    const yielding = { pause, onProgress, isCurrent };
    const theoryDecider = levelTheoryDecider(pageMap, axis, level);
    const found = await levelMap(simulator, axis, level, pageMap.limits, yielding, theoryDecider);
    if (found === null) return null;
    axes[axis] = { ...found, grid: pageMap.axes[axis].grid };
    if (!isCurrent()) return null;
    view.set({ ...view.get(), axes: { ...axes } });
  }
  return axes;
}
