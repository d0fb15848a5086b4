// The interactive maps: a point under the pointer, or chosen with the keys, shows its measures and its limiting case, and
// the map can show one measure, or one throttle level and pack.
import { at } from "../../base/at.js";
import { AXES, type Axis, nearestLine } from "../../words/axes.js";
import { byId } from "../dom.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";
import { type Subject, subject } from "../subject.js";
import { drawOver } from "./draw-switch.js";
import { measureGround, notSimulated, verdictGround } from "./ground.js";
import { levelSwitch } from "./level-switch.js";
import { type Node, type Plate, plateOver } from "./plate.js";
import { pointReport, startReport } from "./point-report.js";
import { readout } from "./readout.js";
import type { View } from "./view.js";

/** Shows the trials of a point, gains in display units, as the view has it. */
export type ShowTrial = (axis: Axis, p: number, d: number, view: View) => void;

export function explorer(
  pageMap: PageMap,
  simulator: Simulator | null,
  shownDraw: Subject<number | null>,
  showTrial: ShowTrial,
): void {
  const view = subject<View>({ shown: "verdict", axes: pageMap.axes, level: null });
  levelSwitch(pageMap, simulator, view);
  for (const axis of AXES) explore(pageMap, axis, view, shownDraw, showTrial);
}

function explore(
  pageMap: PageMap,
  axis: Axis,
  view: Subject<View>,
  shownDraw: Subject<number | null>,
  showTrial: ShowTrial,
): void {
  const { start } = pageMap.tunes[axis];
  const first = firstNode(pageMap, axis);
  const chosen = subject<Node | null>(null); // null: no point chosen yet, so the starting tune is shown
  const hovered = subject<Node | null>(null);
  const events = { onHover: hovered.set, onChoose: chosen.set, current: () => chosen.get() ?? first };
  const plates = [...byId(`map-${axis}`).querySelectorAll<HTMLElement>(".plate")].map((holder) =>
    plateOver(holder, pageMap, axis, events),
  );
  const showChosen = () => {
    const { i, j } = events.current();
    const own = chosen.get() === null && start !== null;
    const { p, d } = pageMap.axes[axis].grid;
    showTrial(axis, own ? start.p : at(p, j), own ? start.d : at(d, i), view.get());
  };
  const report = readout(byId(`read-${axis}`), pageMap, axis, showChosen);
  const refresh = () => {
    const node = hovered.get() ?? chosen.get();
    const now = view.get();
    for (const plate of plates) plate.point(node, hovered.get() === null);
    // A level's own map has the grid alone, not the starting tune.
    const own = node === null && start !== null && now.level === null;
    report(
      own ? startReport(pageMap, axis, start) : pointReport(pageMap, axis, node ?? first, now),
      hovered.get() === null,
    );
  };
  view.watch((now) => {
    for (const plate of plates) plate.cover(groundOf(plate, pageMap, axis, now));
    refresh();
  });
  shownDraw.watch((index) => {
    for (const plate of plates) plate.trace(drawOver(plate.frame, pageMap, axis, index));
  });
  chosen.watch(refresh);
  hovered.watch(refresh);
  byId(`map-${axis}`).addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.target as Element).classList.contains("over")) showChosen();
  });
}

/** The starting tune's point, or the middle of the map. */
function firstNode({ axes, tunes }: PageMap, axis: Axis): Node {
  const { d, p } = axes[axis].grid;
  const { start } = tunes[axis];
  if (start === null) return { i: d.length >> 1, j: p.length >> 1 };
  return { i: nearestLine(d, start.d), j: nearestLine(p, start.p) };
}

function groundOf({ frame }: Plate, pageMap: PageMap, axis: Axis, { shown, axes, level }: View): SVGElement[] {
  const found = axes[axis];
  if (found === undefined) return notSimulated(frame);
  const axesShown = AXES.flatMap((name) => axes[name] ?? []);
  if (shown !== "verdict") return measureGround(frame, pageMap, found, axesShown, shown);
  return level === null ? [] : verdictGround(frame, pageMap, found, pageMap.tunes[axis], level);
}
