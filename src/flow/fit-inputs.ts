// The flights of a fit, read: none twice, none that the model holds already, all of one craft.
import type { Airframe } from "../airframe/airframe.js";
import { fileOf } from "../airframe/draws.js";
import { problemAt } from "../base/document.js";
import { fileProblem, InputError, Problems, printable } from "../base/problem.js";
import { fileDigest } from "../files/file-digest.js";
import { readAirframe, type WithDocument } from "./read.js";
import { type ReadFlight, readFlight } from "./read-flight.js";

export interface FlightOfFit extends ReadFlight {
  readonly file: string;
  /** Of flight file and log together, and of the log alone. */
  readonly digest: string;
  readonly logDigest: string | null;
}

export interface FitInputs {
  readonly modelFile: string;
  readonly model: WithDocument<Airframe>;
  readonly flights: readonly FlightOfFit[];
}

/** `modelFile`: the model to fit, in place of the one that the flights name. Rejects with InputError. */
export async function readFitInputs(files: readonly string[], modelFile: string | null): Promise<FitInputs> {
  const problems = new Problems();
  const flights: FlightOfFit[] = [];
  for (const file of files) {
    try {
      flights.push(withDigests(file, await readFlight(file)));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.take(error);
    }
  }
  problems.throwIfAny();
  refuseTwice(flights);
  const [first] = flights;
  if (first === undefined) throw new InputError([fileProblem("gainscape fit", "expected at least one flight file")]);
  const model = modelFile === null ? first.model : readAirframe(modelFile);
  const name = modelFile ?? first.modelFile;
  refuseOtherCraft(flights, model.value, name, modelFile === null);
  refuseInModel(flights, model, name);
  return { modelFile: name, model, flights };
}

function withDigests(file: string, read: ReadFlight): FlightOfFit {
  const { logFile } = read;
  return {
    ...read,
    file,
    digest: fileDigest(file, ...(logFile === null ? [] : [logFile])),
    logDigest: logFile === null ? null : fileDigest(logFile),
  };
}

const same = (
  one: Pick<FlightOfFit, "digest" | "logDigest">,
  other: Pick<FlightOfFit, "digest" | "logDigest">,
): boolean => one.digest === other.digest || (one.logDigest !== null && one.logDigest === other.logDigest);

function refuseTwice(flights: readonly FlightOfFit[]): void {
  for (const [k, one] of flights.entries()) {
    const before = flights.slice(0, k).find((other) => same(one, other));
    if (before === undefined) continue;
    const what = before.digest === one.digest ? "the same flight" : "another account of the same log";
    throw new InputError([
      fileProblem(one.file, `${what} as ${before.file}; a pack counts once, expected each a single time`),
    ]);
  }
}

function refuseOtherCraft(flights: readonly FlightOfFit[], model: Airframe, name: string, byFlights: boolean): void {
  const other = flights.find(
    (flight) => flight.model.value.name !== model.name || (byFlights && flight.model.value.version !== model.version),
  );
  if (other === undefined) return;
  const { name: own, version } = other.model.value;
  const craft = `${model.name} ${model.version}`;
  throw new InputError([
    problemAt(
      other.document,
      ["model"],
      `a flight of ${own} ${version}, where ${name} is ${craft}; expected flights of one model (--model names another version of the craft)`,
    ),
  ]);
}

/** A flight whose digest the model records has narrowed its spreads once already. */
function refuseInModel(flights: readonly FlightOfFit[], { document }: WithDocument<Airframe>, name: string): void {
  const inModel = fileOf(document).flights ?? [];
  for (const flight of flights) {
    const found = inModel.find(({ digest, log }) => same(flight, { digest, logDigest: log ?? null }));
    if (found !== undefined)
      throw new InputError([
        fileProblem(flight.file, `is in ${name} already ("${printable(found.title)}"); one pack counts once`),
      ]);
  }
}
