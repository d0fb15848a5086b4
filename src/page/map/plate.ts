// What lies over one picture of a map: another ground when asked for, the crosshair, and the pointer and keys that
// move it. The picture below stays what it was without scripts.

import { type Frame, type Polyline, toPixel } from "../../charts/frame.js";
import type { Axis } from "../../words/axes.js";
import { nearestLine } from "../../words/axes.js";
import { draw, make } from "../dom.js";
import type { PageMap } from "../page-map.js";
import { drawTuneMarks } from "./tune-marks.js";

/** Indices of a grid point. */
export interface Node {
  readonly i: number; // D
  readonly j: number; // P
}

export interface PlateEvents {
  /** The pointer is over a point, or has left. */
  readonly onHover: (node: Node | null) => void;
  readonly onChoose: (node: Node) => void;
  /** From where the keys start. */
  readonly current: () => Node;
}

export interface Plate {
  readonly frame: Frame;
  /** Shows other ground in the picture's place; nothing: the picture itself. */
  readonly cover: (ground: readonly SVGElement[]) => void;
  /** Draws the boundary of one draw over the ground, lines of (D, P); none: nothing. */
  readonly trace: (lines: readonly Polyline[]) => void;
  /** Draws the cross; null: none. */
  readonly point: (node: Node | null, chosen: boolean) => void;
}

/** Lays a plate over the picture in `holder`; its place and size are written there. */
export function plateOver(holder: HTMLElement, pageMap: PageMap, axis: Axis, events: PlateEvents): Plate {
  const [left, top, width, height] = numbers(holder.dataset.plot);
  const [across, down] = numbers(holder.dataset.size);
  const { d, p } = pageMap.axes[axis].grid;
  const frame: Frame = { width: across as number, height: down as number, d: ends(d), p: ends(p) };
  const ground = draw("g");
  const traced = draw("g");
  const cross = draw("g", { class: "cross" });
  const sheet = draw(
    "svg",
    { viewBox: `0 0 ${frame.width} ${frame.height}`, "aria-hidden": "true" },
    ground,
    traced,
    cross,
  );
  const label = `Map of ${axis}: arrow keys move the point, Home goes to the point nearest the starting tune, Enter simulates it.`;
  const over = make("div", { class: "over", role: "application", tabindex: 0, "aria-label": label }, sheet);
  Object.assign(over.style, { left: share(left), top: share(top), width: share(width), height: share(height) });
  over.setAttribute("aria-describedby", `read-${axis}`);
  holder.append(over);
  listen(over, pageMap, axis, events);
  return {
    frame,
    cover(elements) {
      const signs = elements.length === 0 ? [] : drawTuneMarks(frame, pageMap.tunes[axis]);
      ground.replaceChildren(...elements, ...signs);
    },
    trace(lines) {
      const path = lines.map((line) => `M${line.map((at) => toPixel(frame, at).join(",")).join("L")}`).join("");
      const stroke = (named: string) => draw("path", { class: named, d: path });
      traced.replaceChildren(...(path === "" ? [] : [stroke("draw-under"), stroke("draw-line")]));
    },
    point(node, chosen) {
      if (node === null) {
        cross.replaceChildren();
        return;
      }
      const [x, y] = toPixel(frame, [d[node.i] as number, p[node.j] as number]);
      cross.replaceChildren(...crosshair(frame, x, y, chosen));
    },
  };
}

const numbers = (text = ""): (number | undefined)[] => text.split(" ").map(Number);
const share = (value = 0): string => `${100 * value}%`;
const ends = (line: readonly number[]): readonly [number, number] => [line[0] as number, line.at(-1) as number];

function crosshair({ width, height }: Frame, x: number, y: number, chosen: boolean): SVGElement[] {
  const lines = `M${x},0V${height}M0,${y}H${width}`;
  return [
    draw("path", { class: "under", d: lines }),
    draw("path", { class: "line", d: lines }),
    draw("circle", { class: chosen ? "spot chosen" : "spot", cx: x, cy: y, r: 6 }),
  ];
}

function listen(over: HTMLElement, pageMap: PageMap, axis: Axis, { onHover, onChoose, current }: PlateEvents): void {
  const { d, p } = pageMap.axes[axis].grid;
  const under = (event: MouseEvent): Node => {
    const box = over.getBoundingClientRect();
    const [x, y] = [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
    const at = (line: readonly number[], part: number) =>
      nearestLine(line, ends(line)[0] + part * (ends(line)[1] - ends(line)[0]));
    return { i: at(d, x), j: at(p, 1 - y) };
  };
  over.addEventListener("pointermove", (event) => onHover(under(event)));
  over.addEventListener("pointerleave", () => onHover(null));
  over.addEventListener("click", (event) => onChoose(under(event)));
  over.addEventListener("focus", () => {
    // A pointer's own focus is followed by its click.
    if (over.matches(":focus-visible")) onChoose(current());
  });
  over.addEventListener("keydown", (event) => {
    const next = nodeAfter(event.key, current(), pageMap, axis);
    if (next === null) return;
    event.preventDefault();
    onChoose(next);
  });
}

const STRIDE = 5; // grid lines that a page key passes

/** Where a key leads, or null where it means nothing here. */
function nodeAfter(key: string, { i, j }: Node, { axes, tunes }: PageMap, axis: Axis): Node | null {
  const { d, p } = axes[axis].grid;
  const within = (line: readonly number[], k: number) => Math.min(line.length - 1, Math.max(0, k));
  const to = (di: number, dj: number): Node => ({ i: within(d, i + di), j: within(p, j + dj) });
  const { start } = tunes[axis];
  switch (key) {
    case "ArrowRight":
      return to(1, 0);
    case "ArrowLeft":
      return to(-1, 0);
    case "ArrowUp":
      return to(0, 1);
    case "ArrowDown":
      return to(0, -1);
    case "PageUp":
      return to(0, STRIDE);
    case "PageDown":
      return to(0, -STRIDE);
    case "Home":
      return start === null ? null : { i: nearestLine(d, start.d), j: nearestLine(p, start.p) };
    default:
      return null;
  }
}
