// The readout of a point of the map: its verdict, the limiting case, and its measures with their limits.
import { measureOf } from "../../base/measures.js";
import { AXIS_TITLES, type Axis } from "../../words/axes.js";
import { withUnit } from "../../words/numbers.js";
import { unitLabel } from "../../words/units.js";
import { make } from "../dom.js";
import type { PageMap } from "../page-map.js";
import { beyond, valueWords } from "../words.js";
import { type PointReport, shownIds } from "./point-report.js";

/** Builds the panel; the function it returns shows a point, and announces it to screen readers if it was chosen. */
export function readout(
  panel: HTMLElement,
  pageMap: PageMap,
  axis: Axis,
  showTrial: () => void,
): (report: PointReport, chosen: boolean) => void {
  const title = make("p", { class: "at" });
  const decided = make("p", { class: "decided" });
  const share = make("p", { class: "share" });
  const list = make("dl", { class: "values" });
  const button = make("button", { type: "button" }, "See and hear this point");
  const announcement = make("p", { class: "aloud", role: "status" });
  button.addEventListener("click", showTrial);
  panel.replaceChildren(
    title,
    ...(pageMap.draws === undefined ? [] : [share]),
    decided,
    list,
    ...(pageMap.simulation === null ? [] : [button]),
    announcement,
  );
  panel.hidden = false;
  return (report, chosen) => {
    title.replaceChildren(
      make("strong", {}, report.place),
      ...(report.beside === "" ? [] : [" ", make("small", { class: "ours" }, report.beside)]),
      " ",
      make("span", { class: `verdict ${report.verdict ?? ""}` }, report.title),
    );
    decided.textContent = report.decided;
    share.textContent = report.share;
    list.replaceChildren(...rows(pageMap, report));
    if (chosen)
      announcement.textContent =
        `${AXIS_TITLES[axis]}, ${report.place}: ${report.title}. ${report.decided} ${report.share}`.trim();
  };
}

function rows({ limits, wanted: required }: PageMap, report: PointReport): HTMLElement[] {
  const measured = shownIds(report).map((id) => {
    const [measure, value, limit] = [measureOf(id), report.value(id), limits[id]];
    const over = beyond(measure, value, limit);
    const bound = limit === null ? "" : `${over ? "over" : "limit"} ${withUnit(limit, unitLabel(measure.unit))}`;
    return row(measure.title, valueWords(measure, value, report.absent(id)), bound, over);
  });
  if (report.margins === null) return measured;
  const { gainUp, phase } = report.margins;
  return [
    ...measured,
    marginRow("Gain margin upwards", gainUp, required.gain, "dB"),
    ...(phase === null ? [] : [marginRow("Phase margin", phase, required.phase, "\u00b0")]),
  ];
}

function marginRow(title: string, value: number | null, required: number, unit: string): HTMLElement {
  const under = value !== null && value < required;
  const valueText = value === null ? "no end" : withUnit(value, unit);
  return row(title, valueText, `${under ? "under" : "wanted"} ${withUnit(required, unit)}`, under);
}

const row = (title: string, value: string, bound: string, over: boolean): HTMLElement =>
  make(
    "div",
    over ? { class: "over-limit" } : {},
    make("dt", {}, title),
    make("dd", {}, value, ...(bound === "" ? [] : [" ", make("small", {}, bound)])),
  );
