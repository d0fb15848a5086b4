// gainscape card: the flight-test card alone, from the map that is there or one simulated for it.
import { CARD_FLIGHT, writeCardFlight } from "../flow/card-flight.js";
import { withLadder } from "../flow/ladder.js";
import { checkMapOwner } from "../flow/owner.js";
import { mapFor } from "../flow/run-map.js";
import { checkOutput, mapFile, outputFolder, writeCard } from "../flow/write.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { mapToReuse } from "./map-to-reuse.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { sweepRequest } from "./sweep.js";

export interface CardOptions extends SimulatingOptions {
  readonly model?: string;
  readonly out?: string;
  readonly fresh?: boolean;
  readonly unsealed?: boolean;
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
  const file = await writeCard(withClimb, folder, reused === null ? null : mapFile(standard), options.signal);
  const flight = writeCardFlight(withClimb, folder, request.model.document.file);
  if (!options.quiet) process.stdout.write(`Flight-test card, two pages to print: ${file}\n${flightLine(flight)}`);
  return EXIT.done;
}

const flightLine = (flight: string | null): string =>
  flight === null ? "" : `Flight file, to fill in with what was seen: ${flight}\n`;
