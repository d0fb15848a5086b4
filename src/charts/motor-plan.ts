// The motors seen from above, nose up: their numbers and which way each one turns. Black lines, no colour that says anything.
import type { MotorPlan } from "../map/field-facts.js";
import { ink } from "./ink.js";
import { tenths } from "./rounding.js";

const SIZE = 120; // px
const NUMBER = 15; // px
const SMALLEST = 11; // px, of a rotor: its number must fit
const ARROW = 3.4; // px
const GAP = 0.5; // rad, of the circle left open at the arrow's head

/** SVG of the plan. */
export function motorPlanSvg({ rotors, radius }: MotorPlan): string {
  const middle = SIZE / 2;
  // Rotors and their numbers must lie within, whatever the propeller's size.
  const scale = (middle - 2) / (1 + Math.max(radius, 0.25));
  const size = Math.max(SMALLEST, radius * scale * 0.92);
  const placed = rotors.map((rotor) => ({
    x: middle + rotor.right * scale,
    y: middle - rotor.forward * scale,
    clockwise: rotor.clockwise,
  }));
  const arms = placed.map(
    ({ x, y }) =>
      `<path d="M${middle},${middle}L${tenths(x)},${tenths(y)}" stroke="${ink("rule")}" stroke-width="1.5"/>`,
  );
  const turning = placed.map((rotor, k) => rotorPicture(rotor, k + 1, size));
  return `<svg class="motor-plan" viewBox="0 0 ${SIZE} ${SIZE}" aria-hidden="true">${[...arms, nose(middle), ...turning].join("")}</svg>`;
}

const nose = (middle: number): string =>
  `<path d="M${middle},${middle - 19}l6,11h-12z" fill="${ink("ink")}"/><text x="${middle}" y="${middle + 5}" text-anchor="middle" font-size="11" fill="${ink("ink")}" stroke="${ink("sheet")}" stroke-width="3" paint-order="stroke">front</text>`;

interface PlacedRotor {
  readonly x: number; // px
  readonly y: number;
  readonly clockwise: boolean;
}

function rotorPicture({ x, y, clockwise }: PlacedRotor, no: number, size: number): string {
  const disc = `<circle cx="${tenths(x)}" cy="${tenths(y)}" r="${tenths(size)}" fill="${ink("sheet")}"/>`;
  const number = `<text x="${tenths(x)}" y="${tenths(y + NUMBER / 3)}" text-anchor="middle" font-size="${NUMBER}" font-weight="700" fill="${ink("ink")}">${no}</text>`;
  return disc + turnArrow(x, y, size, clockwise) + number;
}

/** A circle with a gap, an arrow head where it ends. */
function turnArrow(x: number, y: number, size: number, clockwise: boolean): string {
  const way = clockwise ? 1 : -1;
  // From just behind the top, all the way round to just before it; y points down on a screen.
  const point = (angle: number) => [x + size * Math.sin(way * angle), y - size * Math.cos(angle)] as const;
  const place = ([px, py]: readonly [number, number]) => `${tenths(px)},${tenths(py)}`;
  const [from, to] = [point(GAP), point(2 * Math.PI - GAP)];
  const arc = `<path d="M${place(from)}A${tenths(size)},${tenths(size)} 0 1 ${clockwise ? 1 : 0} ${place(to)}" fill="none" stroke="${ink("ink")}" stroke-width="1.3"/>`;
  return arc + head(to, 2 * Math.PI - GAP, way);
}

function head([x, y]: readonly [number, number], angle: number, way: number): string {
  const along = [way * Math.cos(angle), Math.sin(angle)] as const;
  const corner = (ahead: number, aside: number) =>
    `${tenths(x + ahead * along[0] - aside * along[1])},${tenths(y + ahead * along[1] + aside * along[0])}`;
  return `<path d="M${corner(2 * ARROW, 0)}L${corner(-ARROW, ARROW)}L${corner(-ARROW, -ARROW)}z" fill="${ink("ink")}"/>`;
}
