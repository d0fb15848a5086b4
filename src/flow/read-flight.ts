// A flight file, the model it names and its log, read and joined.
import { dirname, isAbsolute, join } from "node:path";
import type { Airframe } from "../airframe/airframe.js";
import { type Document, problemAt } from "../base/document.js";
import { InputError, type Path, type Problem, Problems } from "../base/problem.js";
import { readDocument } from "../files/read.js";
import { readRows } from "../files/rows.js";
import { finishedLog } from "../flight/finish.js";
import type { Flight, LogDeclaration } from "../flight/flight.js";
import type { FlightLog } from "../flight/log.js";
import { LogReader } from "../flight/log-rows.js";
import { parseFlight } from "../flight/parse.js";
import { FLIGHT_FORMAT } from "../flight/schema.js";
import { refuseOthers } from "./file-kind.js";
import { readAirframe, type WithDocument } from "./read.js";

/** A flight with its model and log; `log` is null where the file holds sightings alone. */
export interface ReadFlight {
  readonly flight: Flight;
  readonly document: Document;
  readonly model: WithDocument<Airframe>;
  /** Path of the model, as seen from here. */
  readonly modelFile: string;
  readonly log: FlightLog | null;
  /** Path of the log, as seen from here. */
  readonly logFile: string | null;
}

/** The flight of a file, without its log. Throws InputError with every problem found. */
export function readFlightFile(path: string): WithDocument<Flight> {
  refuseOthers(path, ["flight"], `a flight (${FLIGHT_FORMAT})`);
  const document = readDocument(path);
  return { value: parseFlight(document), document };
}

/** The path of a file that a flight names, relative to the flight file. */
const pathFromFlight = (flightFile: string, named: string): string =>
  isAbsolute(named) ? named : join(dirname(flightFile), named);

/** The flight of a file with its model and log. Rejects with InputError: every problem of the files, or what makes the log useless. */
export async function readFlight(path: string): Promise<ReadFlight> {
  const { value: flight, document } = readFlightFile(path);
  const modelFile = pathFromFlight(path, flight.model);
  const problems = new Problems();
  const model = problems.attempt(() => readAirframe(modelFile), namedBy(document, ["model"]));
  problems.throwIfAny();
  if (model === null) throw new RangeError("a model that is not there is a problem");
  refuseStrangers(flight, model.value, document);
  const { log: declaration } = flight;
  if (declaration === null) return { flight, document, model, modelFile, log: null, logFile: null };
  const logFile = pathFromFlight(path, declaration.file);
  const log = await readLog(logFile, declaration, model.value, document);
  return { flight, document, model, modelFile, log, logFile };
}

async function readLog(
  file: string,
  declaration: LogDeclaration,
  airframe: Airframe,
  document: Document,
): Promise<FlightLog> {
  const reader = new LogReader(file, declaration, document);
  try {
    refuseOthers(file, ["table"], "a log (CSV)");
    await readRows(file, declaration.delimiter, reader);
    return finishedLog(file, document, declaration, airframe, reader.taken());
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const problems = new Problems();
    problems.take(error, namedBy(document, ["log", "file"]));
    problems.throwIfAny();
    throw error;
  }
}

/** A file that cannot be opened is a fault of the line that names it. */
const namedBy =
  (document: Document, path: Path) =>
  (problem: Problem): Problem =>
    problem.line > 0 ? problem : problemAt(document, path, `${problem.file}: ${problem.message}`);

/** Rotors that the model does not have, and a pack of other cells. */
function refuseStrangers(
  { log, pack }: Flight,
  { rotors, pack: own, name, version }: Airframe,
  document: Document,
): void {
  const craft = `${name} ${version}`;
  const columns = [...(log?.motor ?? []), ...(log?.rotorSpeed ?? [])];
  const faults = columns.flatMap(({ rotor, path }) =>
    rotor < rotors.length
      ? []
      : [
          problemAt(
            document,
            [...path, "rotor"],
            `${craft} has ${rotors.length} rotors, expected 1 to ${rotors.length}`,
          ),
        ],
  );
  if (pack.cells !== null && pack.cells !== own.cells)
    faults.push(
      problemAt(
        document,
        ["pack", "cells"],
        `${craft} has a pack of ${own.cells} cells; a flight with another pack needs its model`,
      ),
    );
  if (faults.length > 0) throw new InputError(faults);
}
