// The mark of the pinned tune: a ring about a dot, distinct from the starting tune's triangle by shape alone.
import { type Frame, type Point, toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { geometry, type Layer } from "./layers.js";

const CORNERS = 24; // of the polygon drawn for a circle

export function pinnedMark(frame: Frame, at: Point, radius: number): Layer[] {
  const [x, y] = toPixel(frame, at);
  const circle = (r: number): Point[] =>
    Array.from({ length: CORNERS + 1 }, (_, k) => {
      const turn = ((k % CORNERS) * 2 * Math.PI) / CORNERS;
      return [x + r * Math.sin(turn), y + r * Math.cos(turn)];
    });
  const disc = (r: number, mark: object) => geometry({ type: "Polygon", coordinates: [circle(r)] }, mark);
  return [
    disc(radius, { fill: ink("sheet"), stroke: ink("sheet"), strokeWidth: 5 }),
    disc(radius, { fill: ink("sheet"), stroke: ink("ink"), strokeWidth: 2.4 }),
    disc(radius * 0.34, { fill: ink("ink"), stroke: null }),
  ];
}
