// The switch above the maps: which measure, and under which throttle level and pack. One level's own survey is flown in
// the page when it is first asked for, and kept.
import { AXES, type Axis } from "../../report/axes.js";
import { BARE, measureWords } from "../../report/measure-words.js";
import { count } from "../../report/numbers.js";
import { byId, make, pause } from "../dom.js";
import { levelMap } from "../level-map.js";
import { levelObjector } from "../level-theory.js";
import type { PageMap, PageMapAxis } from "../page-map.js";
import type { Level, Simulator } from "../simulator.js";
import type { Subject } from "../subject.js";
import { levelWords } from "../words.js";
import type { Shown, View } from "./view.js";

export function levelSwitch(survey: PageMap, fleet: Simulator | null, view: Subject<View>): void {
  const form = byId("map-switch");
  const under = byId<HTMLSelectElement>("map-under");
  const kept = new Map<Level, View["axes"]>();
  form.hidden = false;
  view.watch((now) => {
    byId("map-words").textContent = now.shown === "verdict" ? "" : `${measureWords(survey, now.shown)} ${BARE}`;
    for (const part of document.querySelectorAll<HTMLElement>("[data-applies]"))
      part.classList.toggle("resting", !applies(part, now));
  });
  for (const [index, level] of (fleet?.levels ?? []).entries())
    under.append(make("option", { value: index }, levelWords(level)));
  form.addEventListener("change", async (event) => {
    if (event.target !== under) {
      view.set({ ...view.get(), shown: shownIn(form) });
      return;
    }
    const level = fleet?.levels[Number(under.value)];
    if (fleet === null || under.value === "" || level === undefined) {
      byId("map-told").textContent = "";
      view.set({ ...view.get(), axes: survey.axes, level: null });
      return;
    }
    view.set({ ...view.get(), axes: kept.get(level) ?? {}, level });
    const wanted = () => view.get().level === level;
    const axes = kept.get(level) ?? (await simulateLevel(survey, fleet, level, view, wanted));
    if (axes === null) return;
    kept.set(level, axes);
    byId("map-told").textContent = `Simulated in this page: every point under ${levelWords(level)}.`;
  });
}

/** Whether a part of the page speaks of what is shown: of the verdicts, and of everything together. */
function applies({ dataset }: HTMLElement, { shown, level }: View): boolean {
  if (dataset.applies === "verdicts") return shown === "verdict";
  return shown === "verdict" && level === null;
}

const shownIn = (form: HTMLElement): Shown => form.querySelector<HTMLInputElement>("input:checked")?.value as Shown;

/** Every axis under the level, each shown as soon as it is flown; null where nobody waits for it any more. */
async function simulateLevel(
  survey: PageMap,
  fleet: Simulator,
  level: Level,
  view: Subject<View>,
  wanted: () => boolean,
): Promise<View["axes"] | null> {
  const told = byId<HTMLElement>("map-told");
  const axes: Partial<Record<Axis, PageMapAxis>> = {};
  for (const axis of AXES) {
    const onProgress = ({ flown, of }: { flown: number; of: number }) => {
      told.textContent = `Simulating ${axis}: ${count(flown)} of ${count(of)} trials.`;
    };
    const patience = { pause, onProgress, wanted };
    const objector = levelObjector(survey, axis, level);
    const found = await levelMap(fleet, axis, level, survey.limits, patience, objector);
    if (found === null) return null;
    axes[axis] = found;
    if (!wanted()) return null;
    view.set({ ...view.get(), axes: { ...axes } });
  }
  return axes;
}
