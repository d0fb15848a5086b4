// One axis of a log: the gains that acted, in command per rad/s, per rad and per rad/s^2, with their standard errors.
import type { Airframe, LowPass } from "../airframe/airframe.js";
import { idleCommand } from "../airframe/duty.js";
import { delayOf } from "../airframe/latency.js";
import { at } from "../base/at.js";
import { studentQuantile } from "../base/student.js";
import type { FlightLog, LogAxis, Stretch } from "../flight/log.js";
import { type Block, type BlockFit, blockRegression, leftOver } from "./block-regression.js";
import { freeSpans } from "./free-spans.js";
import { keepsStep } from "./loop-grid.js";
import { type AxisAnswer, loopRows, type RowKind, type RowsOf } from "./loop-rows.js";

/** A gain that acted, SI, and half of its 95 % interval. */
export interface ActingGain {
  readonly value: number;
  readonly half: number;
}

export interface ActingGains {
  readonly p: ActingGain | null;
  readonly i: ActingGain | null;
  readonly d: ActingGain | null;
  /** Why one is null, or what widens it. */
  readonly why: Readonly<Record<"p" | "i" | "d", string>>;
  /** Control periods by which the logged duties stand behind the rate they answer. */
  readonly behind: number | null;
}

const NO_COMMAND = "no commanded rate in the log: what the sticks did and what P and I made of it cannot be told apart";
const NO_ROWS = "the log has no half second in which every duty is logged and free of its limits";

const WIDEST = 200; // Hz: above it a loop answers to little but noise
const WIDTH_SHARE = 0.25; // of the log's rows a second: what is folded lies beyond
const STICKS = 30; // Hz: hands do not move faster; common practice, no source
const GUARD = 0.02; // s
const SHORTEST = 0.5; // s
const MOST = 300; // s of a log that are looked at
/** Interpolating between rows, rounding of duties: as a share, never known better. */
const FLOOR = 0.003;
/** Half widths above this share of the value tell nothing. */
const USELESS = 0.5;

export function actingGains(log: FlightLog, airframe: Airframe, axis: LogAxis, answer: AxisAnswer): ActingGains {
  const { controller } = airframe;
  const rate = log.rate[axis];
  const command = log.command[axis];
  const hasD = axis !== "yaw";
  const none = (why: string): ActingGains => ({
    p: null,
    i: null,
    d: null,
    why: { p: why, i: why, d: why },
    behind: null,
  });
  if (rate === null) return none(`no ${axis} rate in the log`);
  const limits = [
    { columns: log.duty, low: controller.idle, high: 1 },
    { columns: answer.rotors, low: idleCommand(airframe), high: 1 },
  ];
  const spans = upTo(freeSpans(log, limits, [rate, command], { guard: GUARD, shortest: SHORTEST }), log);
  const inStep = keepsStep(log.step, controller.rate);
  if (command === null && !hasD) return none(NO_COMMAND);
  if (command === null && !inStep)
    return {
      ...none(NO_COMMAND),
      why: { p: NO_COMMAND, i: NO_COMMAND, d: `${NO_COMMAND}; D neither, as ${slower(log, controller.rate)}` },
    };
  const reach = Math.ceil(log.step * controller.rate) + delayOf(airframe).steps + 2;
  const width = Math.min(WIDEST, WIDTH_SHARE / log.step);
  const above = command === null ? STICKS : null;
  const kind = inStep || command === null ? "plain" : "instruments";
  const readings = (command === null ? [[]] : commandLowPasses(airframe)).map((commandLowPass) => {
    const all = loopRows(log, airframe, { axis, answer, commandLowPass, spans, width, above, reach });
    const rows: RowsOf = command === null ? (behind, kind) => quieterHalf(all(behind, kind)) : all;
    return { rows, best: bestOffset(rows, reach, kind) };
  });
  const { rows, best } = readings.reduce((one, other) =>
    (other.best?.left ?? 1) < (one.best?.left ?? 1) ? other : one,
  );
  const behind = best?.behind ?? null;
  if (spans.length === 0) return none(NO_ROWS);
  if (behind === null) return none(kind === "plain" ? "the axis hardly moved" : "the sticks hardly moved");
  const plain = blockRegression(rows(behind, "plain"));
  if (plain === null) return none("the axis hardly moved");
  if (command === null) return fromNoise(plain, leftOver(rows(behind, kind)) ?? 1, behind);
  const found = inStep ? plain : blockRegression(rows(behind, kind));
  if (found === null) return none("the sticks hardly moved");
  return fromSticks({ found, plain, inStep, hasD, behind, log, rate: controller.rate });
}

const slower = ({ step }: FlightLog, rate: number): string =>
  `the log has ${Math.round(1 / step)} rows a second and the loop runs at ${rate}`;

function upTo(spans: readonly Stretch[], { time }: FlightLog): Stretch[] {
  let left = MOST;
  return spans.filter(({ from, to }) => {
    const fits = left > 0;
    left -= at(time, to - 1) - at(time, from);
    return fits;
  });
}

/** Where the sticks rest, nobody knows without a command: where the duties rest they do. */
function quieterHalf(blocks: readonly Block[]): Block[] {
  const effort = ({ observed }: Block) => observed.reduce((sum, value) => sum + value * value, 0) / observed.length;
  const ranked = [...blocks].sort((one, other) => effort(one) - effort(other));
  return ranked.slice(0, Math.ceil(ranked.length / 2));
}

/** How far the command stands behind the rate it answers: where least of it is left over. */
function bestOffset(
  rows: RowsOf,
  reach: number,
  kind: RowKind,
): { readonly behind: number; readonly left: number } | null {
  let best: { readonly behind: number; readonly left: number } | null = null;
  for (let behind = -reach; behind <= reach; behind++) {
    const left = leftOver(rows(behind, kind));
    if (left !== null && (best === null || left < best.left)) best = { behind, left };
  }
  return best;
}

/** What the logged command may still pass: nothing where it was logged behind the model's low-pass, that where before it. */
const commandLowPasses = ({ controller: { commandLowPass = [] } }: Airframe): (readonly LowPass[])[] =>
  commandLowPass.length === 0 ? [[]] : [commandLowPass, []];

interface FromSticks {
  readonly found: BlockFit;
  readonly plain: BlockFit;
  readonly inStep: boolean;
  readonly hasD: boolean;
  readonly behind: number;
  readonly log: FlightLog;
  readonly rate: number;
}

function fromSticks({ found, plain, inStep, hasD, behind, log, rate }: FromSticks): ActingGains {
  // between two control periods the offset is not known, and a delay of P's answer looks like D
  const unsure = inStep ? 0 : (2 * Math.abs(at(found.coefficients, 0))) / rate / Math.sqrt(12);
  const p = gain(found, 0, 0);
  const i = gain(found, 1, 0);
  const d = hasD ? gain(found, 2, unsure) : null;
  const quiet = "the log is too quiet to tell";
  return {
    p: useful(p),
    i: useful(i),
    d: d === null ? null : useful(d),
    why: {
      p: useful(p) === null ? quiet : "",
      i: useful(i) === null ? quiet : "",
      d:
        d === null ? "yaw has no D" : `${useful(d) === null ? quiet : ""}${inStep ? "" : widened(d, plain, log, rate)}`,
    },
    behind,
  };
}

/** What folded noise does to D, in words. */
function widened(d: ActingGain, plain: BlockFit, log: FlightLog, rate: number): string {
  const low = 1 - at(plain.coefficients, 2) / d.value;
  const share = (value: number) => `${(100 * Math.abs(value)).toFixed(1)} %`;
  const reads = `D read from all that moved would come out ${share(low)} ${low > 0 ? "low" : "high"}`;
  const best = `± ${share(d.half / d.value)}, where a log of every control period gives ± ${share(FLOOR)} at best`;
  return `${slower(log, rate)}: noise above ${Math.round(0.5 / log.step)} Hz stands folded in its rates, and ${reads}. It is read from what the sticks moved instead: ${best}`;
}

/** Only the slope, and only where what is left over is little: beneath it the sticks may hide. */
function fromNoise(fit: BlockFit, left: number, behind: number): ActingGains {
  const hidden = Math.sqrt(Math.max(0, left));
  const found = gain(fit, 1, hidden * Math.abs(at(fit.coefficients, 1)));
  const d = found.value > 0 ? useful(found) : null;
  const why = `no commanded rate in the log: told from what was faster than ${STICKS} Hz while the duties were quiet, where no stick should have a part`;
  return {
    p: null,
    i: null,
    d,
    why: { p: NO_COMMAND, i: NO_COMMAND, d: d === null ? `${NO_COMMAND}; nor D` : why },
    behind,
  };
}

const half95 = ({ errors, blocks }: BlockFit, column: number): number =>
  studentQuantile(blocks - 1) * at(errors, column);

function gain(fit: BlockFit, column: number, more: number): ActingGain {
  const value = at(fit.coefficients, column);
  const floor = FLOOR * Math.abs(value);
  const half = half95(fit, column);
  return { value, half: Math.sqrt(half * half + more * more + floor * floor) };
}

const useful = (found: ActingGain): ActingGain | null => (found.half < USELESS * Math.abs(found.value) ? found : null);
