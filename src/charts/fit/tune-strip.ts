// Where the tune that was flown stands against the boundary, before and after the fit: P across, at the tune's own D.
import { straightBetween } from "../../base/straight-between.js";
import type { BoundaryBandPoint, FittedAxis } from "../../fit/format.js";
import { ink, type Role } from "../ink.js";
import { tenths } from "../rounding.js";

type Tune = NonNullable<FittedAxis["tune"]>;

const [WIDTH, LEFT] = [380, 92]; // px; names stand left of the strips
const ROW = 20; // px
const TOPS = Object.freeze({ before: 20, after: 50 }); // px
const HEIGHT = 80; // px
const LETTERS = 12.5; // px
const ROOM = 1.12; // beyond the farthest number

/** Low, middle and high P of a band at a D; infinite where no P of those searched is one. */
function bandAt(band: readonly BoundaryBandPoint[], d: number): readonly [number, number, number] {
  const of = (key: "low" | "middle" | "high") =>
    straightBetween(
      band.map((point) => [point.d, point[key]]),
      d,
    ) ?? Number.POSITIVE_INFINITY;
  return [of("low"), of("middle"), of("high")];
}

export function tuneStripSvg({ band }: Pick<FittedAxis, "band">, tune: Tune): string {
  const rows = { before: bandAt(band.before, tune.d), after: bandAt(band.after, tune.d) };
  const places = [...rows.before, ...rows.after, tune.p].filter(Number.isFinite);
  const most = ROOM * places.reduce((top, value) => Math.max(top, value), 0);
  const x = (p: number) => tenths(LEFT + (Math.min(p, most) / most) * (WIDTH - LEFT));
  const box = (from: number, to: number, y: number, role: Role) =>
    `<rect x="${x(from)}" y="${y}" width="${tenths(Math.max(0, x(to) - x(from)))}" height="${ROW}" fill="${ink(role)}"/>`;
  const strip = (name: "before" | "after", title: string) => {
    const [low, middle, high] = rows[name];
    const y = TOPS[name];
    const line = Number.isFinite(middle)
      ? `<path d="M${x(middle)},${y}v${ROW}" stroke="${ink("ink")}" stroke-width="2"/>`
      : "";
    return `${text(LEFT - 7, y + 0.7 * ROW, title, "end")}${box(0, low, y, "tint-0")}${box(low, high, y, "ringing")}${box(high, most, y, "sustained")}${line}<rect x="${LEFT}" y="${y}" width="${WIDTH - LEFT - 0.5}" height="${ROW}" fill="none" stroke="${ink("rule")}"/>`;
  };
  const at = x(tune.p);
  const anchor = at > 0.8 * WIDTH ? "end" : "middle";
  const mark = `<path d="M${at},15V${TOPS.after + ROW + 5}" stroke="${ink("warn")}" stroke-width="2.6"/>`;
  return `<svg class="strip" viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true">${strip("before", "model before")}${strip("after", "fitted")}${mark}${text(at, 11, "your P", anchor, "warn")}</svg>`;
}

function text(x: number, y: number, words: string, anchor: "start" | "middle" | "end", role: Role = "ink"): string {
  return `<text x="${x}" y="${y}" text-anchor="${anchor}" font-size="${LETTERS}" fill="${ink(role)}" stroke="${ink("sheet")}" stroke-width="2.5" stroke-linejoin="round">${words}</text>`;
}
