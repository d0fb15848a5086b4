// Where a map's files go and how they get there: all rendered first, each written whole, map.json last.
import { dirname, join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { InputError } from "../base/problem.js";
import { isFolder } from "../files/folder.js";
import { probeFolder, writeWhole } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";
import { renderCard, renderCsv, renderPage } from "../report/index.js";
import { pageKernels, pageScript } from "./page-script.js";
import { mapFolder } from "./paths.js";

/** What can be made from a map at any time. */
export interface DrawnFiles {
  readonly points: string;
  readonly card: string;
  readonly page: string;
}

export interface ReportFiles extends DrawnFiles {
  readonly map: string;
}

/** reports/<sweep>/<airframe>-<version>, names reduced to what every file system takes. */
export const outputFolder = (plan: Plan): string => mapFolder(plan.sweep.name, plan.airframe);

/** The folder a map.json, or the folder given for it, stands in. */
export const besideMap = (path: string): string => (isFolder(path) ? path : dirname(path));

/** Throws InputError where nothing could be written into the folder; makes nothing. */
export function checkOutput(folder: string): void {
  const problem = probeFolder(folder);
  if (problem !== null) throw new InputError([problem]);
}

/** Writes index.html, card.html, points.csv and map.json; a map.json on disk therefore has its report beside it. */
export async function writeReport(map: StabilityMap, folder: string): Promise<ReportFiles> {
  const drawn = await writeDrawn(map, folder);
  const file = join(folder, "map.json");
  writeWhole(file, `${canonicalJson(map)}\n`);
  return { map: file, ...drawn };
}

/** Everything but the map itself, drawn again from it. */
export async function writeDrawn(map: StabilityMap, folder: string): Promise<DrawnFiles> {
  const file = (name: string) => join(folder, name);
  const files = { points: file("points.csv"), card: file("card.html"), page: file("index.html") };
  const [page, card, points] = [
    await renderPage(map, pageScript(), pageKernels(map)),
    await renderCard(map),
    renderCsv(map),
  ];
  writeWhole(files.page, page);
  writeWhole(files.card, card);
  writeWhole(files.points, points);
  return files;
}

/** The flight-test card alone. */
export async function writeCard(map: StabilityMap, folder: string): Promise<string> {
  const file = join(folder, "card.html");
  writeWhole(file, await renderCard(map));
  return file;
}
