// What the loop of one axis saw and what it answered, as rows for a regression: error, its integral and the rate's slope through
// the model's own filters, times what it multiplies gains by, against the mixed axis command less what it feeds forward.
import type { Airframe, GainFactors, LowPass } from "../airframe/airframe.js";
import { craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { filtered, stagesOf } from "../airframe/filter.js";
import { gainFactorsAt } from "../airframe/gain-schedule.js";
import { gyroChainAt, slopeChainAt, type WorkingPoint } from "../airframe/moving-filter.js";
import { levelAt } from "../airframe/powered.js";
import { at, numberAt } from "../base/at.js";
import type { FlightLog, LogAxis, Stretch } from "../flight/log.js";
import type { Block } from "./block-regression.js";
import { loopGridOf, slopeOf, sumOf } from "./loop-grid.js";
import { hannSmoothing, type Smoothing } from "./smoothing.js";
import { withoutTrend } from "./windows.js";

/** s: of filters that start at rest, before their output counts. */
const WARM_UP = 0.05;
/** s: rows nearer to each other than this go along with each other. */
const BLOCK = 0.4;
/** s: instruments are the command of so long ago. */
const LAGS = [0, 0.004, 0.008, 0.016, 0.032, 0.064, 0.128, 0.256];
/** s: of one piece at most, which bounds memory and how far an integral may wander. */
const PIECE = 20;

/** What the controller made of an axis, one number per row of the log. */
export interface AxisAnswer {
  /** Mixed axis command, fraction. */
  readonly command: Float64Array;
  /** Collective command, fraction: gains and filters may go with it. */
  readonly throttle: Float64Array;
  /** Command of each rotor, fraction; it keeps to limits of its own, before the duties'. */
  readonly rotors: readonly Float64Array[];
}

export interface RowsQuestion {
  readonly axis: LogAxis;
  readonly answer: AxisAnswer;
  /** What the commanded rate as logged still passes before the loop sees it. */
  readonly commandLowPass: readonly LowPass[];
  readonly spans: readonly Stretch[];
  /** Hz, first null of the low-pass that everything passes. */
  readonly width: number;
  /** Hz below which everything is taken away; null: nothing. */
  readonly above: number | null;
  /** Control periods by which the command may stand behind the rate it answers, at most, and before it. */
  readonly reach: number;
}

export type RowKind = "plain" | "instruments";

/** Blocks of rows with the command so many control periods behind the rate. */
export type RowsOf = (behind: number, kind: RowKind) => readonly Block[];

/** Regressors: error (or less the rate, where no command was logged), its integral (only with a command), less the slope (not of yaw). */
export function loopRows(log: FlightLog, airframe: Airframe, question: RowsQuestion): RowsOf {
  const pieces = question.spans
    .flatMap((span) => piecesOf(log, span))
    .flatMap((piece) => rowsOfPiece(log, airframe, question, piece));
  return (behind, kind) => pieces.flatMap((piece) => blocksOf(piece, behind, kind));
}

function piecesOf({ time }: FlightLog, { from, to }: Stretch): Stretch[] {
  const pieces: Stretch[] = [];
  let begin = from;
  for (let row = from; row < to; row++) {
    if (numberAt(time, row) - numberAt(time, begin) < PIECE && row < to - 1) continue;
    pieces.push({ from: begin, to: row + 1 });
    begin = row + 1;
  }
  return pieces;
}

interface PieceRows {
  readonly regressors: readonly Float64Array[];
  readonly instruments: readonly Float64Array[];
  readonly observed: (behind: number) => Float64Array;
  readonly perBlock: number;
}

function rowsOfPiece(log: FlightLog, airframe: Airframe, question: RowsQuestion, piece: Stretch): PieceRows[] {
  const { axis, answer, width, above, reach } = question;
  const { rate } = airframe.controller;
  const measured = log.rate[axis];
  if (measured === null) return [];
  const grid = loopGridOf(log.time, log.step, piece, rate);
  const narrow = hannSmoothing(width, rate);
  const wide = above === null ? null : hannSmoothing(2 * above, rate);
  const room = Math.max(narrow.reach, wide?.reach ?? 0);
  const first = Math.ceil(WARM_UP * rate) + room + reach;
  const hop = Math.max(1, Math.floor(narrow.reach / 2));
  const instants: number[] = [];
  for (let k = first; k < grid.count - room - reach; k += hop) instants.push(k);
  if (instants.length * hop < BLOCK * rate) return [];
  const read = reader(narrow, wide);
  const point = meanPoint(log, airframe, answer, piece);
  const gyro = filtered(grid.sample(measured), stagesOf(gyroChainAt(airframe, point), airframe));
  const slope = filtered(slopeOf(gyro, rate), stagesOf(slopeChainAt(airframe, point), airframe));
  const command = log.command[axis];
  const wanted = command === null ? null : filtered(grid.sample(command), stagesOf(question.commandLowPass, airframe));
  const error = gyro.map((value, k) => (wanted === null ? 0 : numberAt(wanted, k)) - value);
  const byThrottle = gainsOverThrottle(airframe, grid.sample(answer.throttle));
  const columns = [
    byThrottle(error, "p"),
    ...(wanted === null ? [] : [sumOf(byThrottle(error, "i"), rate)]),
    ...(axis === "yaw" ? [] : [byThrottle(slope, "d").map((value) => -value)]),
  ];
  const commands = grid.sample(answer.command);
  const forward = wanted === null ? null : feedForward(wanted, airframe, axis);
  const forwardPart = forward === null ? null : read(forward, instants);
  return [
    {
      regressors: columns.map((column) => read(column, instants)),
      instruments: wanted === null ? [] : instrumentsOf(wanted, rate).map((column) => read(column, instants)),
      observed: (behind) => {
        const output = read(
          commands,
          instants.map((k) => k + behind),
        );
        return forwardPart === null ? output : output.map((value, k) => value - numberAt(forwardPart, k));
      },
      perBlock: Math.max(2, Math.round((BLOCK * rate) / hop)),
    },
  ];
}

/** Columns times what the model multiplies a gain by at each period's throttle, so that what is left to find is the gain as it was set. */
function gainsOverThrottle(
  airframe: Airframe,
  throttle: Float64Array,
): (column: Float64Array, gain: keyof GainFactors) => Float64Array {
  if (airframe.controller.gainSchedule === undefined) return (column) => column;
  const factors = Array.from(throttle, (level) => gainFactorsAt(airframe, level));
  return (column, gain) => column.map((value, k) => value * at(factors, k)[gain]);
}

/** What the model adds to an axis command for the commanded rate and its slope; null where it adds nothing. */
function feedForward(wanted: Float64Array, { controller }: Airframe, axis: LogAxis): Float64Array | null {
  const given = controller.feedForward?.[axis];
  if (given === undefined) return null;
  return slopeOf(wanted, controller.rate).map((slope, k) => given.rate * numberAt(wanted, k) + given.slope * slope);
}

/** Filters that move are taken to stand where the piece has them in the mean; a speed nobody logged is that of a full pack. */
function meanPoint(log: FlightLog, airframe: Airframe, answer: AxisAnswer, { from, to }: Stretch): WorkingPoint {
  const mean = (columns: readonly (Float64Array | null)[]): number => {
    const values = columns.flatMap((column) => [...(column?.subarray(from, to) ?? [])]).filter(Number.isFinite);
    return values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  const throttle = mean([answer.throttle]);
  const speed = mean(log.rotorSpeed);
  const speeds = [Number.isNaN(speed) ? levelAt(craftUnder(airframe, STANDARD_DAY), throttle).speed : speed];
  return { throttle, speeds };
}

type Read = (column: Float64Array, instants: readonly number[]) => Float64Array;

/** Low-passed, less what is slow where that is to go, less its straight line: noise that is summed wanders. */
function reader(narrow: Smoothing, wide: Smoothing | null): Read {
  return (column, instants) => {
    const quick = narrow.at(column, instants);
    const slow = wide?.at(column, instants);
    return withoutTrend(slow === undefined ? quick : quick.map((value, k) => value - numberAt(slow, k)));
  };
}

/** The command as it was, and its integral: they move the rate, and no sensor has a part in them. */
function instrumentsOf(command: Float64Array, rate: number): Float64Array[] {
  const lagged = LAGS.map((lag) => {
    const periods = Math.round(lag * rate);
    return command.map((_, k) => numberAt(command, Math.max(0, k - periods)));
  });
  return [...lagged, sumOf(command, rate)];
}

function blocksOf({ regressors, instruments, observed, perBlock }: PieceRows, behind: number, kind: RowKind): Block[] {
  const answered = observed(behind);
  const count = Math.max(1, Math.floor(answered.length / perBlock));
  return Array.from({ length: count }, (_, block): Block => {
    const cut = (column: Float64Array) =>
      column.subarray(block * perBlock, block === count - 1 ? column.length : (block + 1) * perBlock);
    return {
      regressors: regressors.map(cut),
      instruments: kind === "plain" ? [] : instruments.map(cut),
      observed: cut(answered),
    };
  });
}
