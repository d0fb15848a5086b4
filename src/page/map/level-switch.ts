// The switch above the maps: which measure, and under which throttle level and pack. One level's own survey is flown in
// the page when it is first asked for, and kept.
import { AXES, type Axis } from "../../report/axes.js";
import { measureWords } from "../../report/measure-words.js";
import { count } from "../../report/numbers.js";
import { byId, make, pause } from "../dom.js";
import type { Fleet, Level } from "../fleet.js";
import { levelSurvey } from "../level-survey.js";
import type { Subject } from "../subject.js";
import type { Survey, SurveyAxis } from "../survey.js";
import { levelWords } from "../words.js";
import type { Shown, View } from "./view.js";

export function levelSwitch(survey: Survey, fleet: Fleet | null, view: Subject<View>): void {
  const form = byId("map-switch");
  const under = byId<HTMLSelectElement>("map-under");
  const flown = new Map<Level, View["axes"]>();
  form.hidden = false;
  view.watch(({ shown }) => {
    byId("map-words").textContent = shown === "verdict" ? "" : measureWords(survey, shown);
  });
  for (const [index, level] of (fleet?.levels ?? []).entries())
    under.append(make("option", { value: index }, levelWords(level)));
  form.addEventListener("change", async (event) => {
    if (event.target !== under) {
      view.set({ ...view.get(), shown: shownIn(form) });
      return;
    }
    const level = fleet?.levels[Number(under.value)];
    if (fleet === null || level === undefined) {
      view.set({ shown: shownIn(form), axes: survey.axes, level: null });
      return;
    }
    const axes =
      flown.get(level) ?? (await fly(survey, fleet, level, () => fleet.levels[Number(under.value)] === level));
    if (axes === null) return;
    flown.set(level, axes);
    view.set({ shown: shownIn(form), axes, level: levelWords(level) });
  });
}

const shownIn = (form: HTMLElement): Shown => form.querySelector<HTMLInputElement>("input:checked")?.value as Shown;

async function fly(survey: Survey, fleet: Fleet, level: Level, wanted: () => boolean): Promise<View["axes"] | null> {
  const told = byId<HTMLElement>("map-told");
  const axes: Partial<Record<Axis, SurveyAxis>> = {};
  for (const axis of AXES) {
    const onProgress = ({ flown, of }: { flown: number; of: number }) => {
      told.textContent = `Flying ${axis}: ${count(flown)} of ${count(of)} trials.`;
    };
    const found = await levelSurvey(fleet, axis, level, survey.limits, { pause, onProgress, wanted });
    if (found === null) return null;
    axes[axis] = found;
  }
  told.textContent = `Flown in this page: every point under ${levelWords(level)}.`;
  return axes as View["axes"];
}
