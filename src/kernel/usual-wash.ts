// Wash as it usually is. How far slow bursts turn a craft within a window hangs on how a few of them happen to follow each
// other: a third more or less from draw to draw, with the same spectrum. A map is to show the usual case. So the phases of
// the slow lines are drawn anew, one at a time, as long as that brings what the draw does to a craft nearer to the mean of
// all draws.
import { cos, sin } from "../base/elementary.js";
import type { Xoshiro128 } from "../base/random.js";
import type { Script } from "../sweep/sweep.js";
import { randomPhase } from "./multisine.js";
import type { Schedule } from "./schedule.js";
import type { Through } from "./wash.js";

/** Lines of the noise, the mean among them, whose phases count: faster ones average out within the window. */
export const SLOW_LINES = 10;
const DRAWS = 1000;
/** How fast a loop turns a craft back, per window: hardly, within half of it, within a tenth. */
const RETURNS = [0.5, 2, 4, 10];
/** Instants of the window at which the craft is looked at: an angle changes slowly. */
const LOOKS = 200;

export interface WashedFlight {
  readonly schedule: Schedule;
  readonly window: Script["window"];
  readonly share: Float64Array; // of the worst wash
  readonly length: number; // control periods after which the noise comes again
  readonly through: Through;
}

/** A function that draws the slow lines of one mode's white noise: one period, to be added to the faster lines. */
export function usualDraws(flight: WashedFlight): (source: Xoshiro128) => Float64Array {
  const lines = slowLines(flight.length);
  const effects = effectsOf(flight, lines);
  return (source) => {
    const amounts = new Float64Array(lines.length);
    for (let cycles = 0; cycles < SLOW_LINES; cycles++) drawLine(amounts, cycles, source);
    let least = strangest(effects, amounts, Number.POSITIVE_INFINITY);
    const other = amounts.slice();
    for (let draw = 0; draw < DRAWS; draw++) {
      drawLine(other, draw % SLOW_LINES, source);
      const now = strangest(effects, other, least);
      const kept = now < least ? amounts : other;
      kept.set(now < least ? other : amounts);
      least = Math.min(least, now);
    }
    const sum = new Float64Array(flight.length);
    for (const [at, line] of lines.entries()) for (let k = 0; k < sum.length; k++) sum[k] += amounts[at] * line[k];
    return sum;
  };
}

/** The mean, then cosine and sine of each line as `multisine` scales them, one period. */
function slowLines(length: number): Float64Array[] {
  const scale = 1 / Math.sqrt(length);
  const turn = Float64Array.from({ length }, (_, k) => (2 * Math.PI * k) / length);
  const [cosine, sine] = [turn.map(cos), turn.map(sin)];
  const lines = [new Float64Array(length).fill(scale)];
  for (let cycles = 1; cycles < SLOW_LINES; cycles++) {
    lines.push(cosine.map((_, k) => 2 * scale * cosine[(cycles * k) % length]));
    lines.push(sine.map((_, k) => -2 * scale * sine[(cycles * k) % length]));
  }
  return lines;
}

/** The mean has a sign, every other line a phase. */
function drawLine(amounts: Float64Array, cycles: number, source: Xoshiro128): void {
  const [re, im] = randomPhase(source);
  if (cycles === 0) amounts[0] = re < 0 ? -1 : 1;
  else amounts.set([re, im], 2 * cycles - 1);
}

/** What the lines do to a craft whose loop turns it back at one of the RETURNS. */
interface Effect {
  /** Squares of its angle about a straight drift, for each pair of lines, over their mean over all phases; by rows. */
  readonly squares: Float64Array;
  /** The share of that angle, in the same measure, that goes along with a craft's return from a command. */
  readonly along: Float64Array;
}

/** The largest strangeness; where one is `enough` already, the others are not looked at. */
function strangest(effects: readonly Effect[], amounts: Float64Array, enough: number): number {
  let most = 0;
  for (const effect of effects) {
    most = Math.max(most, strangeness(effect, amounts));
    if (most >= enough) break;
  }
  return most;
}

/** How far from the mean of all draws, as a share of the mean square: of the angle itself, and of its sum with a return. */
function strangeness({ squares, along }: Effect, amounts: Float64Array): number {
  const count = amounts.length;
  let square = 0;
  let together = 0;
  for (let i = 0; i < count; i++) {
    let row = 0;
    for (let j = 0; j < count; j++) row += squares[i * count + j] * amounts[j];
    square += row * amounts[i];
    together += along[i] * amounts[i];
  }
  return Math.max(Math.abs(square - 1), Math.abs(together));
}

function effectsOf({ schedule, window, share, through }: WashedFlight, lines: readonly Float64Array[]): Effect[] {
  const { speed, steps, period } = schedule;
  const [from, to] = [Math.round(window.from / period), Math.min(steps, Math.round(window.to / period))];
  const stride = Math.max(1, Math.floor((to - from) / LOOKS));
  const torque = share.map((part, k) => part * speed[k] * speed[k]);
  const angles = RETURNS.map((): Float64Array[] => []);
  const burst = new Float64Array(to);
  for (const line of lines) {
    through(line, burst);
    for (let k = 0; k < to; k++) burst[k] *= torque[k];
    for (const [at, perWindow] of RETURNS.entries())
      angles[at].push(aboutDrift(turned(burst, perWindow / (to - from), from, stride)));
  }
  const tap = Float64Array.from({ length: to - from }, (_, k) => +(k === 0));
  return RETURNS.map((perWindow, at) => {
    const coming = aboutDrift(turned(tap, perWindow / (to - from), 0, stride));
    return effectOf(angles[at], coming);
  });
}

function effectOf(angles: readonly Float64Array[], coming: Float64Array): Effect {
  const usual = angles.reduce((sum, angle, at) => sum + (at === 0 ? 1 : 0.5) * dot(angle, angle), 0);
  const size = Math.sqrt(usual * dot(coming, coming));
  return {
    squares: Float64Array.from(angles.flatMap((a) => angles.map((b) => over(dot(a, b), usual)))),
    along: Float64Array.from(angles, (angle) => over(dot(angle, coming), size)),
  };
}

/** Where nothing is stirred in the window, every draw is as good. */
const over = (value: number, whole: number): number => (whole > 0 ? value / whole : 0);

/**
 * The angle a torque turns a craft by, up to a factor, where its loop takes back so much of it per control period: every
 * `stride`-th one from `from` on.
 */
function turned(torque: Float64Array, back: number, from: number, stride: number): Float64Array {
  const angles = new Float64Array(Math.ceil((torque.length - from) / stride));
  let angle = 0;
  let next = from;
  for (let k = 0, at = 0; k < torque.length; k++) {
    angle += torque[k] - back * angle;
    if (k !== next) continue;
    angles[at++] = angle;
    next += stride;
  }
  return angles;
}

/** Without its straight line. */
function aboutDrift(values: Float64Array): Float64Array {
  const middle = 0.5 * (values.length - 1);
  const place = values.map((_, k) => k - middle);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const slope = over(dot(place, values), dot(place, place));
  return values.map((value, k) => value - mean - slope * place[k]);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k] * b[k];
  return sum;
}
