// A number before and after as a small picture: two intervals on one scale. Drawn directly: a page holds some forty.
import type { Estimated } from "../../fit/format.js";
import { ink, type Role } from "../ink.js";
import { tenths } from "../rounding.js";

const [WIDTH, HEIGHT] = [132, 26]; // px
const EDGE = 5; // px, free on either side

/** Before above, thin; after below, thick; a mark at each middle. */
export function intervalsSvg(before: Estimated, after: Estimated): string {
  const low = Math.min(before.low, after.low);
  const high = Math.max(before.high, after.high);
  const x = (value: number) =>
    high > low ? tenths(EDGE + ((value - low) / (high - low)) * (WIDTH - 2 * EDGE)) : WIDTH / 2;
  const bar = ({ low: from, high: to }: Estimated, y: number, width: number, role: Role) =>
    `<path d="M${x(from)},${y}H${x(to)}" stroke="${ink(role)}" stroke-width="${width}" stroke-linecap="round"/>`;
  const lines = [
    bar(before, 8, 2, "soft"),
    `<path d="M${x(before.middle)},4.5V11.5" stroke="${ink("soft")}" stroke-width="2"/>`,
    bar(after, 18, 5, "contour"),
    `<path d="M${x(after.middle)},13V23" stroke="${ink("ink")}" stroke-width="2"/>`,
  ];
  return `<svg class="intervals" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" aria-hidden="true">${lines.join("")}</svg>`;
}
