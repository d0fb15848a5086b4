// gainscape card: the flight-test card alone, from the map that is there or one simulated for it. Of a craft with an axis
// without a tune none is written, but for the other axis on a test stand where that is asked for.
import { fileProblem, InputError } from "../base/problem.js";
import { CARD_FLIGHT, writeCardFlight } from "../flow/card-flight.js";
import { withLadder } from "../flow/ladder.js";
import { checkOutput, outputFolder } from "../flow/output.js";
import { checkMapOwner } from "../flow/owner.js";
import { mapFor, sweepRequest } from "../flow/run-map.js";
import { mapFile, writeCard } from "../flow/write.js";
import type { Axis } from "../sweep/sweep.js";
import { cardRefusals } from "../words/grounded-words.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { mapToReuse } from "./map-to-reuse.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";

export interface CardOptions extends SimulatingOptions {
  readonly model?: string;
  readonly out?: string;
  readonly fresh?: boolean;
  readonly unsealed?: boolean;
  /** This axis alone, for a craft held on a test stand. */
  readonly testStand?: Axis;
}

export async function cardCommand(path: string, options: CardOptions): Promise<number> {
  const request = sweepRequest(path, options.model);
  const folder = options.out ?? outputFolder(request.plan);
  const standard = outputFolder(request.plan);
  checkOutput(folder, { names: ["card.html", CARD_FLIGHT] });
  checkMapOwner(folder, request.model.value);
  const reused = mapToReuse(request.plan, standard, options);
  if (reused === null) forecast([request.plan], folder, [], options);
  const map = reused ?? (await withProgress(options, (how) => mapFor(request, how)));
  const withClimb = map.ladder === undefined ? withLadder(request.plan, map) : map;
  const { testStand, signal } = options;
  const refusals = cardRefusals(withClimb, testStand);
  if (refusals.length > 0) throw new InputError(refusals.map((one) => fileProblem(request.model.document.file, one)));
  const mapPath = reused === null ? null : mapFile(standard);
  const file = await writeCard(withClimb, folder, mapPath, { signal, testStand });
  // What is seen on a stand is not what a fit takes: it holds the craft.
  const flight = testStand === undefined ? writeCardFlight(withClimb, folder, request.model.document.file) : null;
  if (!options.quiet) process.stdout.write(`${titleOf(testStand)}: ${file}\n${flightLine(flight)}`);
  return EXIT.done;
}

const titleOf = (testStand: Axis | undefined): string =>
  testStand === undefined
    ? "Flight-test card, two pages to print"
    : `Test-stand card of ${testStand} alone, never for flight`;

const flightLine = (flight: string | null): string =>
  flight === null ? "" : `Flight file, to fill in with what was seen: ${flight}\n`;
