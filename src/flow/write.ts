// Where a map's files go and how they get there: all rendered first, each written whole, map.json last.
import { dirname, join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { InputError } from "../base/problem.js";
import { sealed } from "../base/seal.js";
import { isFolder } from "../files/folder.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { probeFolder, writeInTurn } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";
import { renderCard, renderCsv, renderPage } from "../report/index.js";
import type { TrialCache } from "./cache.js";
import type { Texts } from "./kept-texts.js";
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

/** What ends the writing early, and where drawn pages are kept and looked for. */
export interface Writing {
  readonly signal?: AbortSignal;
  readonly cache?: TrialCache | undefined;
}

/** Writes index.html, card.html, points.csv and map.json; a map.json on disk therefore has its report beside it. */
export async function writeReport(map: StabilityMap, folder: string, writing: Writing = {}): Promise<ReportFiles> {
  const { signal, cache } = writing;
  const file = join(folder, "map.json");
  const { seal, ...rest } = sealed(map);
  const hangsOn = { pagesOf: seal };
  const kept = cache?.texts?.recall(hangsOn, asDrawn) ?? null;
  const drawn = kept ?? (await draw(map, folder, signal));
  if (kept === null) cache?.texts?.keep(hangsOn, drawn);
  await writeInTurn([...contents(drawn, folder), [file, `${canonicalJson({ ...rest, seal })}\n`]], signal);
  return { map: file, ...drawnFiles(folder) };
}

/** Everything but the map itself, drawn again from it. */
export async function writeDrawn(map: StabilityMap, folder: string, signal?: AbortSignal): Promise<DrawnFiles> {
  await writeInTurn(contents(await draw(map, folder, signal), folder), signal);
  return drawnFiles(folder);
}

/** The flight-test card alone. */
export async function writeCard(map: StabilityMap, folder: string, signal?: AbortSignal): Promise<string> {
  const { card } = drawnFiles(folder);
  await writeInTurn([[card, await renderCard(map)]], signal);
  return card;
}

/** The texts of the drawn files. */
type Drawn = Readonly<Record<keyof DrawnFiles, string>>;

const drawnFiles = (folder: string): DrawnFiles => ({
  points: join(folder, "points.csv"),
  card: join(folder, "card.html"),
  page: join(folder, "index.html"),
});

async function draw(map: StabilityMap, folder: string, signal: AbortSignal | undefined): Promise<Drawn> {
  const files = drawnFiles(folder);
  await unlessInterrupted(signal, files.page);
  const page = await renderPage(map, pageScript(), pageKernels(map));
  await unlessInterrupted(signal, files.page);
  return { page, card: await renderCard(map), points: renderCsv(map) };
}

function contents({ page, card, points }: Drawn, folder: string): (readonly [path: string, content: string])[] {
  const files = drawnFiles(folder);
  return [
    [files.page, page],
    [files.card, card],
    [files.points, points],
  ];
}

const asDrawn = ({ page, card, points }: Texts): Drawn | null =>
  page === undefined || card === undefined || points === undefined ? null : { page, card, points };
