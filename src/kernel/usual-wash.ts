// Wash as it usually is. How far slow bursts turn a craft within a window depends on how a few of them happen to follow each
// other: a third more or less from draw to draw, with the same spectrum. A map is to show the usual case. So the phases of
// the slow lines are drawn anew, one at a time, as long as that brings what the draw does to a craft nearer to the mean of
// all draws.
import { cos, sin } from "../base/elementary.js";
import type { Xoshiro128 } from "../base/random.js";
import type { Script } from "../sweep/sweep.js";
import type { Through } from "./bursts.js";
import { randomPhase } from "./multisine.js";
import type { Schedule } from "./schedule.js";

/** Lines of the noise, the mean among them, whose phases count: faster ones average out within the window. */
export const SLOW_LINES = 10;
const DRAWS = 1000;
/** How fast a loop turns a craft back, per window: hardly, within half of it, within a tenth. */
const RETURNS = [0.5, 2, 4, 10];
/** Instants of the window at which the craft's angle is computed: it changes slowly. */
const INSTANTS = 200;

export interface WashInput {
  readonly schedule: Schedule;
  readonly window: Script["window"];
  readonly share: Float64Array; // of the worst wash
  readonly length: number; // control periods after which the noise comes again
  readonly through: Through;
}

/** Draws of slow lines: one period of white noise, to be added to the faster lines. */
export interface UsualDraws {
  /** For a mode that turns the craft. */
  readonly turning: (source: Xoshiro128) => Float64Array;
  /** For one that lifts it, whose effect on these bursts of the turning modes is to be the usual one, next to nothing. */
  readonly lifting: (bursts: readonly Float64Array[]) => (source: Xoshiro128) => Float64Array;
}

export function usualDraws(input: WashInput): UsualDraws {
  const lines = slowLines(input.length);
  const { period, speed, steps } = input.schedule;
  const [from, to] = [Math.round(input.window.from / period), Math.min(steps, Math.round(input.window.to / period))];
  const disturbed = lines.map((line) => product(input.through(line, new Float64Array(to)), input.share, to));
  const torque = product(speed, speed, to);
  const effects = { from, torque, disturbed };
  return {
    turning: drawnUsually(lines, turningEffects(effects)),
    lifting: (bursts) => {
      const shared = product(torque, input.share, to);
      const torques = bursts.map((burst) => product(shared, burst, to));
      return drawnUsually(lines, liftingEffects(effects, torques));
    },
  };
}

function drawnUsually(
  lines: readonly Float64Array[],
  effects: readonly Effect[],
): (source: Xoshiro128) => Float64Array {
  return (source) => {
    const amounts = new Float64Array(lines.length);
    for (let cycles = 0; cycles < SLOW_LINES; cycles++) drawLine(amounts, cycles, source);
    const other = amounts.slice();
    let standings = effects.map((effect) => standingOf(effect, amounts));
    let least = Math.max(...standings.map(strangeness));
    for (let draw = 0; draw < DRAWS; draw++) {
      const cycles = draw % SLOW_LINES;
      drawLine(other, cycles, source);
      if (strangestWith(standings, changeOf(amounts, other, cycles), least) < least) {
        amounts.set(other);
        standings = effects.map((effect) => standingOf(effect, amounts));
        least = Math.max(...standings.map(strangeness));
      } else other.set(amounts);
    }
    const sum = new Float64Array(lines[0].length);
    for (const [at, line] of lines.entries()) addScaled(sum, amounts[at], line);
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

/** By how much the amounts of one line, at two neighbouring places, differ. */
interface Change {
  readonly first: number;
  readonly byFirst: number;
  readonly bySecond: number;
}

function changeOf(from: Float64Array, to: Float64Array, cycles: number): Change {
  const first = cycles === 0 ? 0 : 2 * cycles - 1;
  return { first, byFirst: to[first] - from[first], bySecond: cycles === 0 ? 0 : to[first + 1] - from[first + 1] };
}

/** What the lines do to a craft whose loop turns it back at one of the RETURNS. */
interface Effect {
  /** Squares of its angle about a straight drift, for each pair of lines, over their mean over all phases; by rows. */
  readonly squares: Float64Array | null;
  /** The share of that angle, in the same measure, that goes along with an angle the craft has anyway. */
  readonly along: Float64Array;
}

/** An effect under given amounts of the lines. */
interface Standing {
  readonly effect: Effect;
  readonly rows: Float64Array; // of the squares, each summed with the amounts
  readonly square: number;
  readonly together: number; // with the angle the craft has anyway
}

function standingOf(effect: Effect, amounts: Float64Array): Standing {
  const { squares, along } = effect;
  const rows = squares === null ? new Float64Array(amounts.length) : rowsOf(squares, amounts);
  return { effect, rows, square: squares === null ? 1 : dot(rows, amounts), together: dot(along, amounts) };
}

function rowsOf(squares: Float64Array, amounts: Float64Array): Float64Array {
  const rows = new Float64Array(amounts.length);
  for (let i = 0, at = 0; i < rows.length; i++)
    for (let j = 0; j < rows.length; j++) rows[i] += squares[at++] * amounts[j];
  return rows;
}

/** How far from the mean of all draws, as a share of the mean square: of the angle itself, and of its sum with the other. */
const strangeness = ({ square, together }: Standing): number => Math.max(Math.abs(square - 1), Math.abs(together));

/** The largest strangeness after a change; where one is `enough` already, the others are not computed. */
function strangestWith(standings: readonly Standing[], change: Change, enough: number): number {
  let most = 0;
  for (const standing of standings) {
    most = Math.max(most, strangenessWith(standing, change));
    if (most >= enough) break;
  }
  return most;
}

/** From what a change of two amounts adds to the sums: their number counts, a thousand draws a noise. */
function strangenessWith({ effect, rows, square, together }: Standing, { first, byFirst, bySecond }: Change): number {
  const { squares, along } = effect;
  const second = first + 1;
  const nowTogether = Math.abs(together + byFirst * along[first] + bySecond * along[second]);
  if (squares === null) return nowTogether;
  const at = first * rows.length + first;
  const ofBoth = byFirst * bySecond * squares[at + 1];
  const own = byFirst * byFirst * squares[at] + 2 * ofBoth + bySecond * bySecond * squares[at + rows.length + 1];
  const nowSquare = square + 2 * (byFirst * rows[first] + bySecond * rows[second]) + own;
  return Math.max(Math.abs(nowSquare - 1), nowTogether);
}

interface WashEffects {
  readonly from: number; // control period at which the window begins
  readonly torque: Float64Array; // what wash of a rotor's whole thrust does, up to a factor, up to the window's end
  readonly disturbed: readonly Float64Array[]; // what each line does to thrust, up to there
}

function turningEffects({ from, torque, disturbed }: WashEffects): Effect[] {
  const to = torque.length;
  const stride = strideOf(from, to);
  const angles = disturbed.map((burst) => turned(torque, burst, from, stride, to - from));
  const tap = new Float64Array(to - from);
  tap[0] = 1;
  // A craft's return from a command it was given before the window.
  const coming = turned(tap, tap, 0, stride, to - from);
  return RETURNS.map((_, at) =>
    effectOf(
      angles.map((ofReturns) => ofReturns[at]),
      coming[at],
    ),
  );
}

/** Lift strengthens or weakens what stabilises the craft against torques: as if they were stronger, or weaker, by as much. */
function liftingEffects({ from, disturbed }: WashEffects, torques: readonly Float64Array[]): Effect[] {
  const to = disturbed[0].length;
  const stride = strideOf(from, to);
  const still = new Float64Array(to).fill(1);
  return torques.flatMap((torque) => {
    const changed = disturbed.map((lift) => turned(torque, lift, from, stride, to - from));
    const anyway = turned(torque, still, from, stride, to - from);
    return RETURNS.map((_, at): Effect => {
      const usual = dot(anyway[at], anyway[at]);
      const along = changed.map((ofReturns) => over(dot(ofReturns[at], anyway[at]), usual));
      return { squares: null, along: Float64Array.from(along) };
    });
  });
}

const strideOf = (from: number, to: number): number => Math.max(1, Math.floor((to - from) / INSTANTS));

function effectOf(angles: readonly Float64Array[], coming: Float64Array): Effect {
  const usual = angles.reduce((sum, angle, at) => sum + (at === 0 ? 1 : 0.5) * dot(angle, angle), 0);
  const size = Math.sqrt(usual * dot(coming, coming));
  return {
    squares: Float64Array.from(angles.flatMap((a) => angles.map((b) => over(dot(a, b), usual)))),
    along: Float64Array.from(angles, (angle) => over(dot(angle, coming), size)),
  };
}

/** Where nothing is disturbed in the window, every draw is as good. */
const over = (value: number, total: number): number => (total > 0 ? value / total : 0);

/**
 * The angle about its straight drift that torque times `share` turns a craft by, up to a factor, where its loop takes back so
 * much of it per control period, one for each of the RETURNS: every `stride`-th one from `from` on.
 */
function turned(
  torque: Float64Array,
  share: Float64Array,
  from: number,
  stride: number,
  window: number,
): Float64Array[] {
  const [back0, back1, back2, back3] = RETURNS.map((perWindow) => perWindow / window);
  const count = Math.ceil((torque.length - from) / stride);
  const [angles0, angles1, angles2, angles3] = RETURNS.map(() => new Float64Array(count));
  let [angle0, angle1, angle2, angle3] = [0, 0, 0, 0];
  let next = from;
  for (let k = 0, at = 0; k < torque.length; k++) {
    const push = torque[k] * share[k];
    // Side by side, so that no return waits for another.
    angle0 += push - back0 * angle0;
    angle1 += push - back1 * angle1;
    angle2 += push - back2 * angle2;
    angle3 += push - back3 * angle3;
    if (k !== next) continue;
    angles0[at] = angle0;
    angles1[at] = angle1;
    angles2[at] = angle2;
    angles3[at] = angle3;
    at++;
    next += stride;
  }
  return [angles0, angles1, angles2, angles3].map(aboutDrift);
}

/** Without its straight line. */
function aboutDrift(values: Float64Array): Float64Array {
  const middle = 0.5 * (values.length - 1);
  let [sum, along, square] = [0, 0, 0];
  for (let k = 0; k < values.length; k++) {
    const place = k - middle;
    sum += values[k];
    along += place * values[k];
    square += place * place;
  }
  const mean = sum / values.length;
  const slope = over(along, square);
  for (let k = 0; k < values.length; k++) values[k] = values[k] - mean - slope * (k - middle);
  return values;
}

function product(a: Float64Array, b: Float64Array, length: number): Float64Array {
  const products = new Float64Array(length);
  for (let k = 0; k < length; k++) products[k] = a[k] * b[k];
  return products;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k] * b[k];
  return sum;
}

export function addScaled(sum: Float64Array, scale: number, values: Float64Array): void {
  for (let k = 0; k < sum.length; k++) sum[k] += scale * values[k];
}
