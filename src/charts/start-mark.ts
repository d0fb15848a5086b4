// The mark of the starting tune: a triangle about a dot, as a map marks a triangulation point.
import { type Frame, type Point, toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { geometry, type Layer } from "./layers.js";

/** `at` is (D, P), `radius` in px. */
export function startMark(frame: Frame, at: Point, radius: number): Layer[] {
  const [x, y] = toPixel(frame, at);
  const corner = (k: number, r: number): Point => {
    const turn = (k * 2 * Math.PI) / 3;
    return [x + r * Math.sin(turn), y - r * Math.cos(turn)];
  };
  const triangle = (r: number): Point[] => [0, 1, 2].map((k) => corner(k, r));
  const outline = triangle(radius);
  return [
    geometry(
      { type: "Polygon", coordinates: [[...outline, outline[0]]] },
      { fill: ink("sheet"), stroke: ink("sheet"), strokeWidth: 5 },
    ),
    geometry(
      { type: "Polygon", coordinates: [[...outline, outline[0]]] },
      { fill: ink("sheet"), stroke: ink("warn"), strokeWidth: 2.4 },
    ),
    geometry(
      { type: "Polygon", coordinates: [[...triangle(radius * 0.34), corner(0, radius * 0.34)]] },
      { fill: ink("warn"), stroke: null },
    ),
  ];
}
