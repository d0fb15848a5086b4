// gainscape report: everything that can be drawn from a map, and from what its changes do, drawn again from its map.json and effects.json.
import { printable } from "../base/problem.js";
import { checkOutput } from "../flow/output.js";
import { checkMapOwner } from "../flow/owner.js";
import { effectFiles } from "../flow/paths.js";
import { readEffects } from "../flow/read-effects.js";
import { readFullMap } from "../flow/read-map.js";
import { folderOfMap, writeDrawn } from "../flow/write.js";
import { effectsDrawing } from "../flow/write-effects.js";
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
  const effects = readEffects(folderOfMap(path), map);
  const folder = options.out ?? folderOfMap(path);
  const { effectsPage } = effectFiles(folder);
  checkOutput(folder, { names: ["index.html", "card.html", "points.csv", "effects.html"] });
  checkMapOwner(folder, map.airframe);
  const drawings = effects === null ? [] : [effectsDrawing(effects, map, folder)];
  const { page, card, points } = await writeDrawn(map, folder, drawings, options.signal);
  const changed = unsealedWords(map);
  const without = notSimulatedWords(map);
  for (const line of [changed, without]) if (line !== null) process.stderr.write(`${printable(line)}\n`);
  const changes = effects === null ? "" : `Changes: ${effectsPage}\n`;
  if (!options.quiet) process.stdout.write(`Report: ${page}\nFlight-test card: ${card}\nPoints: ${points}\n${changes}`);
  return EXIT.done;
}
