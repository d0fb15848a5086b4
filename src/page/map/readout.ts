// What a point of the map says: its verdict, who decided it, and its measures beside their limits.
import { measureOf } from "../../base/measures.js";
import { AXIS_TITLES, type Axis } from "../../report/axes.js";
import { withUnit } from "../../report/numbers.js";
import { spoken } from "../../report/units.js";
import { make } from "../dom.js";
import type { PageMap } from "../page-map.js";
import { beyond, valueWords } from "../words.js";
import { type PointReport, shownIds } from "./point-report.js";

/** Fills the panel; the function it answers fills it with a point, aloud where that was chosen. */
export function readout(
  panel: HTMLElement,
  survey: PageMap,
  axis: Axis,
  fly: () => void,
): (told: PointReport, chosen: boolean) => void {
  const title = make("p", { class: "at" });
  const decided = make("p", { class: "decided" });
  const list = make("dl", { class: "values" });
  const button = make("button", { type: "button" }, "See and hear this point");
  const aloud = make("p", { class: "aloud", role: "status" });
  button.addEventListener("click", fly);
  panel.replaceChildren(title, decided, list, ...(survey.flying === null ? [] : [button]), aloud);
  panel.hidden = false;
  return (told, chosen) => {
    title.replaceChildren(
      make("strong", {}, told.place),
      " ",
      make("span", { class: `verdict ${told.verdict ?? ""}` }, told.title),
    );
    decided.textContent = told.decided;
    list.replaceChildren(...rows(survey, told));
    if (chosen) aloud.textContent = `${AXIS_TITLES[axis]}, ${told.place}: ${told.title}. ${told.decided}`;
  };
}

function rows({ limits, wanted }: PageMap, told: PointReport): HTMLElement[] {
  const measured = shownIds(told).map((id) => {
    const [measure, value, limit] = [measureOf(id), told.value(id), limits[id]];
    const over = beyond(measure, value, limit);
    const bound = limit === null ? "" : `${over ? "over" : "limit"} ${withUnit(limit, spoken(measure.unit))}`;
    return row(measure.title, valueWords(measure, value, told.absent(id)), bound, over);
  });
  if (told.margins === null) return measured;
  const { gainUp, phase } = told.margins;
  return [
    ...measured,
    marginRow("Gain margin upwards", gainUp, wanted.gain, "dB"),
    ...(phase === null ? [] : [marginRow("Phase margin", phase, wanted.phase, "\u00b0")]),
  ];
}

function marginRow(title: string, value: number | null, wanted: number, unit: string): HTMLElement {
  const under = value !== null && value < wanted;
  const said = value === null ? "no end" : withUnit(value, unit);
  return row(title, said, `${under ? "under" : "wanted"} ${withUnit(wanted, unit)}`, under);
}

const row = (title: string, value: string, bound: string, over: boolean): HTMLElement =>
  make(
    "div",
    over ? { class: "over-limit" } : {},
    make("dt", {}, title),
    make("dd", {}, value, ...(bound === "" ? [] : [" ", make("small", {}, bound)])),
  );
