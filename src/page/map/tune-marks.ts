// The marks of the starting and the pinned tune, drawn as in the pictures.
import { type Frame, toPixel } from "../../charts/frame.js";
import type { Box } from "../../charts/placement.js";
import { draw } from "../dom.js";
import type { PageMap } from "../page-map.js";

const RADIUS = 10; // px

type Tunes = Pick<PageMap["tunes"]["roll"], "start" | "pinned">;

/** Where no name may stand, px. */
export function tuneMarkBoxes(frame: Frame, { start, pinned }: Tunes): Box[] {
  const half = RADIUS + 4;
  return [start, pinned].flatMap((tune) => {
    if (tune === null) return [];
    const [x, y] = toPixel(frame, [tune.d, tune.p]);
    return [{ left: x - half, top: y - half, right: x + half, bottom: y + half }];
  });
}

export function drawTuneMarks(frame: Frame, { start, pinned }: Tunes): SVGElement[] {
  const at = ({ p, d }: { p: number; d: number }) => toPixel(frame, [d, p]);
  return [...(start === null ? [] : triangle(...at(start))), ...(pinned === null ? [] : ring(...at(pinned)))];
}

function triangle(x: number, y: number): SVGElement[] {
  const path = (r: number) => `M${x},${y - r}L${x + 0.866 * r},${y + r / 2}H${x - 0.866 * r}Z`;
  return [
    draw("path", { d: path(RADIUS), class: "sign-halo" }),
    draw("path", { d: path(RADIUS), class: "sign start" }),
    draw("path", { d: path(RADIUS / 3), class: "core start" }),
  ];
}

function ring(x: number, y: number): SVGElement[] {
  const circle = (r: number, named: string) => draw("circle", { cx: x, cy: y, r, class: named });
  return [circle(0.8 * RADIUS, "sign-halo"), circle(0.8 * RADIUS, "sign pinned"), circle(0.27 * RADIUS, "core pinned")];
}
