// The switch that shows one draw over the maps: its boundary, in what it differs most, and what forbids the starting tune.
import { at } from "../../base/at.js";
import { boundaryLines } from "../../charts/confidence-lines.js";
import type { Frame, Polyline } from "../../charts/frame.js";
import type { PageDraw } from "../../page-data/draws-data.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { byId, make } from "../dom.js";
import type { PageMap } from "../page-map.js";
import { type Subject, subject } from "../subject.js";

/** Which draw is shown; null: all together. Nothing is built where the map was made without draws. */
export function drawSwitch({ draws, axes }: PageMap): Subject<number | null> {
  const shown = subject<number | null>(null);
  if (draws === undefined) return shown;
  const select = byId<HTMLSelectElement>("draw-shown");
  const options = draws.each.map((draw, index) => ({
    draw,
    option: make("option", { value: index }, title(draw, index)),
  }));
  const group = (label: string, failing: boolean) => {
    const found = options.filter(({ draw }) => draw.fails.length > 0 === failing).map(({ option }) => option);
    if (found.length > 0) select.append(make("optgroup", { label }, ...found));
  };
  group("A starting tune fails", true);
  group("The starting tunes hold", false);
  byId("draw-switch").hidden = false;
  select.addEventListener("change", () => shown.set(select.value === "" ? null : Number(select.value)));
  shown.watch((index) => {
    const lines =
      index === null
        ? []
        : drawLines(at(draws.each, index), index, (axis) => at(axes[axis].grid.p, axes[axis].grid.p.length - 1));
    byId("draw-words").replaceChildren(...lines.map((line) => make("p", {}, line)));
  });
  return shown;
}

const title = ({ fails }: PageDraw, index: number): string =>
  `Draw ${index + 1}${fails.length === 0 ? "" : `: ${fails.map((one) => one.split(" ")[0]).join(" and ")} fail${fails.length === 1 ? "s" : ""}`}`;

function drawLines({ differs, fails, boundary }: PageDraw, index: number, top: (axis: Axis) => number): string[] {
  const beyond = AXES.filter((axis) => boundary[axis].every((p) => p === null || p > top(axis)));
  return [
    `Draw ${index + 1}, furthest from the model as it is written: ${differs.join(", ")}.`,
    fails.length === 0 ? "The starting tunes are safe in it." : `${fails.join(". ")}.`,
    ...(beyond.length === 0
      ? []
      : [`Its boundary lies above the picture: ${beyond.map((axis) => AXIS_TITLES[axis]).join(", ")}.`]),
  ];
}

/** The boundary of a draw within the frame of a picture. */
export function drawOver(frame: Frame, { draws }: PageMap, axis: Axis, index: number | null): readonly Polyline[] {
  if (draws === undefined || index === null) return [];
  const { boundary } = at(draws.each, index);
  return boundaryLines(
    frame,
    draws.d[axis].map((d, row) => [d, boundary[axis][row] ?? null] as const),
  );
}
