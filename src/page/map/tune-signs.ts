// The signs of the starting and the pinned tune, as the pictures have them.
import { type Frame, toPixel } from "../../report/charts/frame.js";
import { draw } from "../dom.js";
import type { Survey } from "../survey.js";

const RADIUS = 10; // px

export function tuneSigns(frame: Frame, { start, pinned }: Survey["tunes"]["roll"]): SVGElement[] {
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
