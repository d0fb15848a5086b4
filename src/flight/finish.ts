// From the rows of a log to the log as a fit takes it, with all that is odd about it.
import type { Airframe } from "../airframe/airframe.js";
import { at, numberAt } from "../base/at.js";
import { type Document, problemAt } from "../base/document.js";
import { deepFreeze } from "../base/freeze.js";
import { fileProblem, InputError } from "../base/problem.js";
import { figures } from "../base/units.js";
import { channelsOf, placed } from "./channels.js";
import { type Clock, clockOf } from "./clock.js";
import { clockRemarks } from "./clock-remarks.js";
import type { LogFacts } from "./facts.js";
import type { LogDeclaration } from "./flight.js";
import type { FlightLog, Remark, Stretch } from "./log.js";
import type { LogRows } from "./log-rows.js";
import { modelRemarks } from "./model-remarks.js";
import { rowRemarks } from "./row-remarks.js";
import { lasting, stretchesOf } from "./stretches.js";
import { valueRemarks } from "./value-remarks.js";

/** Rows a second that a log of rates can have: beyond, the unit of time is another. */
const SLOWEST = 20;
const FASTEST = 100_000;
/** s of usable rows, below which nothing can be told. */
const SHORTEST = 1;

/** InputError where the log is of no use; `document` is the flight file. */
export function finishedLog(
  file: string,
  document: Document,
  declaration: LogDeclaration,
  airframe: Airframe,
  rows: LogRows,
): FlightLog {
  const clock = clockOf(rows.time, declaration.time.scale);
  refuseStep(clock, document, declaration);
  const channels = rows.channels.map((all) => picked(all, clock.rows));
  const line = (row: number): number => rows.line(clock.rows === null ? row : at(clock.rows, row));
  const facts: LogFacts = { file, declaration, airframe, rows, clock, channels, line };
  const stretches = stretchesOf(clock.time, clock.cuts, declaration.use);
  refuseShort(document, stretches, facts);
  const log = {
    time: clock.time,
    ...placed(declaration, channels, airframe.rotors.length),
    stretches,
    step: clock.step,
  };
  const remarks: Remark[] = [
    ...rowRemarks(facts),
    ...clockRemarks(facts),
    ...channelsOf(declaration).flatMap((channel, c) => valueRemarks(facts, channel, at(channels, c))),
    ...modelRemarks(facts, { ...log, remarks: [] }),
  ];
  return { ...log, remarks: deepFreeze(remarks) };
}

function picked(all: Float64Array, rows: Uint32Array | null): Float64Array {
  if (rows === null) return all;
  const some = new Float64Array(rows.length);
  for (let row = 0; row < rows.length; row++) some[row] = numberAt(all, at(rows, row));
  return some;
}

function refuseStep({ step }: Clock, document: Document, { time }: LogDeclaration): void {
  const rate = 1 / step;
  if (rate >= SLOWEST && rate <= FASTEST) return;
  const said = Number.isFinite(rate) ? `${figures(rate)} rows a second` : "no step forward";
  const message = `in ${time.unit} the column ${time.name} has ${said}, expected ${SLOWEST} to ${FASTEST}; is it in another unit?`;
  throw new InputError([problemAt(document, [...time.path, "unit"], message)]);
}

function refuseShort(document: Document, stretches: readonly Stretch[], facts: LogFacts): void {
  const { file, clock, declaration } = facts;
  const usable = stretches.reduce((sum, one) => sum + lasting(clock.time, one), 0);
  if (usable >= SHORTEST) return;
  const short = `${figures(usable)} s of the log can be used, expected ${SHORTEST} s at least`;
  if (declaration.use.length > 0) {
    const all = figures(numberAt(clock.time, clock.time.length - 1));
    throw new InputError([problemAt(document, ["log", "use"], `${short}; the log lasts ${all} s from its first row`)]);
  }
  const [first] = rowRemarks(facts);
  throw new InputError([fileProblem(file, first === undefined ? short : `${short}; line ${first.row}: ${first.text}`)]);
}
