// A gain judged along a line: grounds by what fails there, the range that passes between them, the model's own gain and the one to take.
import { ln } from "../base/elementary.js";
import type { Strip, StripLimit } from "../map/strip-format.js";
import { stripGain } from "../words/strip-words.js";
import { ink, type Role } from "./ink.js";
import { tenths } from "./rounding.js";

const [WIDTH, LETTERS] = [340, 13] as const; // px
const [TOP, BAND, TICKS, EDGE] = [24, 34, 22, 9] as const; // px: marks' names, grounds, numbers; room at the sides
const PER_LETTER = 0.56; // width of a letter over its height
const TICK_ROOM = 5; // px on either side of a number

/** The ground of what a gain fails by: as on the map where it has the same name there. */
const GROUNDS: Readonly<Record<string, Role>> = {
  "sustained oscillation": "sustained",
  "gain margin": "avoid",
  "phase margin": "avoid",
  rise: "loose",
  drift: "loose",
  overshoot: "ringing",
  settling: "ringing",
  kick: "loose",
  limited: "hot",
  heat: "hot",
  commandNoise: "hot",
};

/** What stands in a ground, as long as it fits. */
const NAMES: Readonly<Record<string, string>> = {
  "sustained oscillation": "oscillates",
  "gain margin": "gain margin",
  "phase margin": "phase margin",
  rise: "runs on",
  drift: "drifts",
  overshoot: "swings back",
  settling: "slow to settle",
  kick: "swings",
  limited: "no reserve",
  heat: "hot",
  commandNoise: "noise",
};

export function stripSvg(strip: Strip): string {
  const x = placeOf(strip);
  const height = TOP + BAND + TICKS;
  const { declared, choice } = strip;
  const replaced = choice !== null && choice !== declared;
  const marks = [x(declared), ...(replaced ? [x(choice)] : [])];
  const grounds = groundsOf(strip).map(({ from, to, limit }) => ground(x(from), x(to), limit, marks));
  const frame = `<rect x="${EDGE}" y="${TOP}" width="${WIDTH - 2 * EDGE}" height="${BAND}" fill="none" stroke="${ink("ink")}"/>`;
  const own = mark(x(declared), replaced || choice === null ? "soft" : "warn", "model's");
  const taken = replaced ? mark(x(choice), "warn", "take") : "";
  return `<svg class="strip" viewBox="0 0 ${WIDTH} ${height}" aria-hidden="true">${grounds.join("")}${frame}${ticks(strip, x)}${own}${taken}</svg>`;
}

/** By factors; nothing at all lies one step left of the least gain. */
function placeOf({ gains }: Strip): (gain: number) => number {
  const positive = gains.filter((gain) => gain > 0).map(ln);
  const [first = 0, second = first + 1] = positive;
  const low = gains[0] === 0 ? first - (second - first) : first;
  const high = positive.at(-1) ?? low + 1;
  const place = (gain: number) => (gain > 0 ? Math.max(low, ln(gain)) : low);
  return (gain) => tenths(EDGE + ((place(gain) - low) / (high - low)) * (WIDTH - 2 * EDGE));
}

interface Ground {
  readonly from: number;
  readonly to: number;
  readonly limit: StripLimit | null; // null: passes
}

/** Neighbours that fail alike as one; they meet half-way by factors, and at the ends of the range exactly there. */
function groundsOf({ gains, fails, range }: Strip): Ground[] {
  const grounds: Ground[] = [];
  gains.forEach((gain, at) => {
    const limit = fails[at] ?? null;
    const next = gains[at + 1];
    const to = next === undefined ? gain : border(gain, next, limit, fails[at + 1] ?? null, range);
    const before = grounds.at(-1);
    if (before !== undefined && before.limit?.limit === limit?.limit) grounds[grounds.length - 1] = { ...before, to };
    else grounds.push({ from: before?.to ?? gain, to, limit });
  });
  return grounds;
}

function border(
  gain: number,
  next: number,
  one: StripLimit | null,
  other: StripLimit | null,
  range: Strip["range"],
): number {
  const inside = (end: number) => end >= gain && end <= next;
  if (one !== null && other === null && range !== null && inside(range.from)) return range.from;
  if (one === null && other !== null && range !== null && inside(range.to)) return range.to;
  return gain > 0 ? Math.sqrt(gain * next) : next;
}

/** Its name stands in the widest part of it that no mark crosses. */
function ground(from: number, to: number, limit: StripLimit | null, marks: readonly number[]): string {
  const role = limit === null ? "safe" : (GROUNDS[limit.limit] ?? "avoid");
  const name = limit === null ? "passes" : (NAMES[limit.limit] ?? "");
  const edges = [from, ...marks.filter((at) => at > from && at < to), to].sort((a, b) => a - b);
  const parts = edges.slice(1).map((end, k) => ({ start: edges[k] ?? from, end }));
  const widest = parts.reduce((best, part) => (part.end - part.start > best.end - best.start ? part : best), {
    start: from,
    end: from,
  });
  const fits = halfWidth(name) < (widest.end - widest.start) / 2 - 3;
  const letter: Role = limit?.limit === "sustained oscillation" ? "letter-on-sustained" : "ink";
  const label = fits
    ? text(tenths((widest.start + widest.end) / 2), TOP + BAND / 2 + LETTERS / 3, name, letter, false)
    : "";
  return `<rect x="${from}" y="${TOP}" width="${tenths(Math.max(0, to - from))}" height="${BAND}" fill="${ink(role)}"/>${label}`;
}

const halfWidth = (words: string): number => (words.length * PER_LETTER * LETTERS) / 2;

/** Numbers under the gains, as many as have room; the ends of the range first. */
function ticks(strip: Strip, x: (gain: number) => number): string {
  const { gains, range, declared, choice } = strip;
  const wanted = [
    ...(range === null ? [] : [range.from, range.to]),
    declared,
    ...(choice === null ? [] : [choice]),
    ...gains,
  ];
  const taken: [from: number, to: number][] = [];
  return [...new Set(wanted)]
    .flatMap((gain) => {
      const words = gain === 0 ? "0" : stripGain(strip, gain);
      const half = halfWidth(words) + TICK_ROOM;
      const room: [number, number] = [x(gain) - half, x(gain) + half];
      if (taken.some(([from, to]) => room[0] < to && from < room[1])) return [];
      taken.push(room);
      const y = TOP + BAND;
      return [
        `<path d="M${x(gain)},${y}v5" stroke="${ink("ink")}"/>${text(within(x(gain), words), y + 6 + LETTERS, words, "ink", true)}`,
      ];
    })
    .join("");
}

function mark(x: number, role: Role, words: string): string {
  return `<path d="M${x},${TOP - 6}V${TOP + BAND}" stroke="${ink(role)}" stroke-width="2.4"/>${text(within(x, words), TOP - 9, words, role, true)}`;
}

/** The middle of a text at x that stays within the picture. */
const within = (x: number, words: string): number =>
  tenths(Math.min(WIDTH - halfWidth(words), Math.max(halfWidth(words), x)));

function text(x: number, y: number, words: string, role: Role, halo: boolean): string {
  const outline = halo ? ` stroke="${ink("sheet")}" stroke-width="2.5" stroke-linejoin="round"` : "";
  return `<text x="${x}" y="${tenths(y)}" text-anchor="middle" font-size="${LETTERS}" fill="${ink(role)}"${outline}>${words}</text>`;
}
