// gainscape report: everything that can be drawn from a map, drawn again from its map.json.

import { checkMapOwner } from "../flow/owner.js";
import { readWholeMap } from "../flow/read-map.js";
import { besideMap, checkOutput, writeDrawn } from "../flow/write.js";
import { EXIT } from "./exit.js";

export interface ReportOptions {
  readonly signal: AbortSignal;
  readonly out?: string;
  readonly quiet?: boolean;
}

export async function reportCommand(path: string, options: ReportOptions): Promise<number> {
  const map = readWholeMap(path);
  const folder = options.out ?? besideMap(path);
  checkOutput(folder, { names: ["index.html", "card.html", "points.csv"] });
  checkMapOwner(folder, map.airframe);
  const { page, card, points } = await writeDrawn(map, folder, options.signal);
  if (!options.quiet) process.stdout.write(`Report: ${page}\nFlight-test card: ${card}\nPoints: ${points}\n`);
  return EXIT.done;
}
