// What a point of the map says: its verdict, who decided it, and its measures beside their limits.
import { MEASURES } from "../../base/measures.js";
import { AXIS_TITLES, type Axis } from "../../report/axes.js";
import { culpritWords } from "../../report/limit-words.js";
import { withUnit } from "../../report/numbers.js";
import { printable } from "../../report/printable.js";
import { spoken } from "../../report/units.js";
import { VERDICT_WORDS } from "../../report/verdict-words.js";
import { make } from "../dom.js";
import type { Survey } from "../survey.js";
import { beyond, placeWords, valueWords } from "../words.js";
import type { Node } from "./plate.js";
import type { View } from "./view.js";

/** Fills the panel; the function it answers tells of a point, aloud where it was chosen. */
export function readout(
  panel: HTMLElement,
  survey: Survey,
  axis: Axis,
  fly: () => void,
): (node: Node, view: View, chosen: boolean) => void {
  const title = make("p", { class: "at" });
  const decided = make("p", { class: "decided" });
  const list = make("dl", { class: "values" });
  const button = make("button", { type: "button" }, "See and hear this point");
  const aloud = make("p", { class: "aloud", role: "status" });
  button.addEventListener("click", fly);
  panel.replaceChildren(title, decided, list, ...(survey.flying === null ? [] : [button]), aloud);
  panel.hidden = false;
  return (node, view, chosen) => {
    const said = headline(survey, axis, node, view);
    title.replaceChildren(
      make("strong", {}, said.place),
      " ",
      make("span", { class: `verdict ${said.verdict}` }, said.title),
    );
    decided.textContent = said.decided;
    list.replaceChildren(...rows(survey, axis, node, view));
    if (chosen) aloud.textContent = `${AXIS_TITLES[axis]}, ${said.place}: ${said.title}. ${said.decided}`;
  };
}

function headline(survey: Survey, axis: Axis, { i, j }: Node, { axes, level }: View) {
  const { verdict, safe, decidedBy } = axes[axis];
  const found = verdict[i]?.[j] ?? "sustained";
  const who = survey.variants[decidedBy[i]?.[j] ?? -1];
  const under = level === null ? "" : ` Under ${level} alone.`;
  return {
    place: placeWords(survey, survey.grid.p[j] as number, survey.grid.d[i] as number),
    verdict: found,
    title: safe[i]?.[j] === true ? "Clean and safe" : VERDICT_WORDS[found].title,
    decided: `${who === undefined ? "No limit passed." : `Decided by: ${printable(culpritWords(survey, who))}.`}${under}`,
  };
}

function rows({ limits, wanted }: Survey, axis: Axis, { i, j }: Node, { axes }: View): HTMLElement[] {
  const { measures, absent, margins } = axes[axis];
  const measured = MEASURES.map((measure) => {
    const value = measures[measure.id][i]?.[j] ?? null;
    const limit = limits[measure.id];
    const over = beyond(measure, value, limit);
    const bound = limit === null ? "" : `${over ? "over" : "limit"} ${withUnit(limit, spoken(measure.unit))}`;
    return row(measure.title, valueWords(measure, value, absent[measure.id][i]?.[j] ?? 0), bound, over);
  });
  if (margins === null) return measured;
  const [gain, phase] = [margins.gainUp[i]?.[j] ?? null, margins.phase[i]?.[j] ?? null];
  return [
    ...measured,
    marginRow("Gain margin upwards", gain, wanted.gain, "dB"),
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
