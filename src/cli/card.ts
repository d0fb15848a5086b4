// gainscape card: the flight-test card alone, from the map that is there or one flown for it.
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
  const flight = sweepRequest(path, options.model);
  const folder = options.out ?? outputFolder(flight.plan);
  const standard = outputFolder(flight.plan);
  checkOutput(folder, { names: ["card.html"] });
  checkMapOwner(folder, flight.model.value);
  const kept = mapToReuse(flight.plan, standard, options);
  if (kept === null) forecast([flight.plan], folder, [], options);
  const map = kept ?? (await withProgress(options, (how) => mapFor(flight, how)));
  const climbing = map.ladder === undefined ? withLadder(flight.plan, map) : map;
  const file = await writeCard(climbing, folder, kept === null ? null : mapFile(standard), options.signal);
  if (!options.quiet) process.stdout.write(`Flight-test card, two pages to print: ${file}\n`);
  return EXIT.done;
}
