// Where a map's files go and how they get there: all rendered first, each written whole, map.json last.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { InputError } from "../base/problem.js";
import { probeFolder, writeWhole } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";
import { renderCsv, renderPage } from "../report/index.js";
import { mapFolder } from "./paths.js";

export interface ReportFiles {
  readonly map: string;
  readonly points: string;
  readonly page: string;
}

/** reports/<sweep>/<airframe>-<version>, names reduced to what every file system takes. */
export const outputFolder = (plan: Plan): string => mapFolder(plan.sweep.name, plan.airframe);

/** Throws InputError where nothing could be written into the folder; makes nothing. */
export function checkOutput(folder: string): void {
  const problem = probeFolder(folder);
  if (problem !== null) throw new InputError([problem]);
}

/** Writes index.html, points.csv and map.json; a map.json on disk therefore has its report beside it. */
export async function writeReport(map: StabilityMap, folder: string): Promise<ReportFiles> {
  const files = { map: join(folder, "map.json"), points: join(folder, "points.csv"), page: join(folder, "index.html") };
  const [page, points] = [await renderPage(map), renderCsv(map)];
  writeWhole(files.page, page);
  writeWhole(files.points, points);
  writeWhole(files.map, `${canonicalJson(map)}\n`);
  return files;
}
