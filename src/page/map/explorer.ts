// The maps made to answer: a point under the pointer or chosen with the keys tells its measures and who decided, and
// the ground can be that of one measure or of one throttle level and pack.
import { AXES, type Axis, nearestLine } from "../../report/axes.js";
import { byId } from "../dom.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";
import { type Subject, subject } from "../subject.js";
import { measureGround, notSimulated, verdictGround } from "./ground.js";
import { levelSwitch } from "./level-switch.js";
import { type Node, type Plate, plateOver } from "./plate.js";
import { pointReport, startReport } from "./point-report.js";
import { readout } from "./readout.js";
import type { View } from "./view.js";

/** Flies an axis at gains in people's units. */
export type ShowTrial = (axis: Axis, p: number, d: number) => void;

export function explorer(survey: PageMap, fleet: Simulator | null, fly: ShowTrial): void {
  const view = subject<View>({ shown: "verdict", axes: survey.axes, level: null });
  levelSwitch(survey, fleet, view);
  for (const axis of AXES) explore(survey, axis, view, fly);
}

function explore(survey: PageMap, axis: Axis, view: Subject<View>, fly: ShowTrial): void {
  const { start } = survey.tunes[axis];
  const first = firstNode(survey, axis);
  const chosen = subject<Node | null>(null); // null: nobody has chosen yet, the starting tune speaks
  const looked = subject<Node | null>(null);
  const events = { onLook: looked.set, onChoose: chosen.set, current: () => chosen.get() ?? first };
  const plates = [...byId(`map-${axis}`).querySelectorAll<HTMLElement>(".plate")].map((holder) =>
    plateOver(holder, survey, axis, events),
  );
  const flyChosen = () => {
    const { i, j } = events.current();
    const own = chosen.get() === null && start !== null;
    fly(axis, own ? start.p : (survey.grid.p[j] as number), own ? start.d : (survey.grid.d[i] as number));
  };
  const tell = readout(byId(`read-${axis}`), survey, axis, flyChosen);
  const refresh = () => {
    const node = looked.get() ?? chosen.get();
    const now = view.get();
    for (const plate of plates) plate.point(node, looked.get() === null);
    // A level's own survey knows the grid alone.
    const own = node === null && start !== null && now.level === null;
    tell(own ? startReport(survey, start) : pointReport(survey, axis, node ?? first, now), looked.get() === null);
  };
  view.watch((now) => {
    for (const plate of plates) plate.cover(groundOf(plate, survey, axis, now));
    refresh();
  });
  chosen.watch(refresh);
  looked.watch(refresh);
  byId(`map-${axis}`).addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.target as Element).classList.contains("over")) flyChosen();
  });
}

/** The starting tune's point, or the middle of the map. */
function firstNode({ grid: { d, p }, tunes }: PageMap, axis: Axis): Node {
  const { start } = tunes[axis];
  if (start === null) return { i: d.length >> 1, j: p.length >> 1 };
  return { i: nearestLine(d, start.d), j: nearestLine(p, start.p) };
}

function groundOf({ frame }: Plate, survey: PageMap, axis: Axis, { shown, axes, level }: View): SVGElement[] {
  const found = axes[axis];
  if (found === undefined) return notSimulated(frame);
  const flown = AXES.flatMap((name) => axes[name] ?? []);
  if (shown !== "verdict") return measureGround(frame, survey, found, flown, shown);
  return level === null ? [] : verdictGround(frame, survey, found, survey.tunes[axis], level);
}
