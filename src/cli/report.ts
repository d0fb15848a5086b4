// gainscape report: everything that can be drawn from a map, drawn again from its map.json.
import { printable } from "../base/problem.js";
import { checkOutput } from "../flow/output.js";
import { checkMapOwner } from "../flow/owner.js";
import { readFullMap } from "../flow/read-map.js";
import { folderOfMap, writeDrawn } from "../flow/write.js";
import { notSimulatedWords, unsealedWords } from "../report/index.js";
import { EXIT } from "./exit.js";

export interface ReportOptions {
  readonly signal: AbortSignal;
  readonly out?: string;
  readonly quiet?: boolean;
  readonly unsealed?: boolean;
}

export async function reportCommand(path: string, options: ReportOptions): Promise<number> {
  const map = readFullMap(path, options);
  const folder = options.out ?? folderOfMap(path);
  checkOutput(folder, { names: ["index.html", "card.html", "points.csv"] });
  checkMapOwner(folder, map.airframe);
  const { page, card, points } = await writeDrawn(map, folder, options.signal);
  const changed = unsealedWords(map);
  const without = notSimulatedWords(map);
  for (const line of [changed, without]) if (line !== null) process.stderr.write(`${printable(line)}\n`);
  if (!options.quiet) process.stdout.write(`Report: ${page}\nFlight-test card: ${card}\nPoints: ${points}\n`);
  return EXIT.done;
}
