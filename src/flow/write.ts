// Writes a map's files: the map first, then what is drawn from it, each file atomically.
import { dirname, join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { sealed } from "../base/seal.js";
import { shellLine } from "../base/shell-words.js";
import { isFolder } from "../files/folder.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { removeIfThere, writeAtomically } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import { type CardOptions, renderCard, renderCsv, renderPage, renderStripsCsv } from "../report/index.js";
import type { TrialCache } from "./cache.js";
import type { Texts } from "./cached-texts.js";
import { type Drawing, DrawingError, drawInTurn } from "./drawing.js";
import { pageKernels, pageScript } from "./page-script.js";
import { effectFiles } from "./paths.js";

/** What can be made from a map at any time. */
export interface DrawnFiles {
  readonly points: string;
  readonly card: string;
  readonly page: string;
}

export interface ReportFiles extends DrawnFiles {
  readonly map: string;
  /** Written only where the map has strips. */
  readonly strips: string;
}

/** The folder of a map.json, or the folder itself if one is given. */
export const folderOfMap = (path: string): string => (isFolder(path) ? path : dirname(path));

/** What ends the writing early, and the cache of drawn pages. */
export interface WriteOptions {
  readonly signal?: AbortSignal;
  readonly cache?: TrialCache | undefined;
}

/**
 * Writes map.json, then points.csv, index.html, card.html and strips.csv, each drawn in its turn: what was simulated is on disk before
 * anything is drawn from it. Files drawn from another map are removed first, so that a folder never mixes two maps.
 * Throws DrawingError where a file could not be drawn; the others are there.
 */
export async function writeReport(map: StabilityMap, folder: string, writing: WriteOptions = {}): Promise<ReportFiles> {
  const { signal, cache } = writing;
  const { seal, ...rest } = sealed(map);
  const text = canonicalJson({ ...rest, seal });
  const cacheInputs = { pagesOf: seal };
  const cached = cache?.texts?.get(cacheInputs, drawnFrom) ?? null;
  const file = mapFile(folder);
  await unlessInterrupted(signal, file);
  writeMap(text, folder);
  const drawings = [
    ...(cached === null ? drawingsOf(map, folder) : cachedDrawings(cached, folder)),
    ...stripsOf(map, folder),
  ];
  const [points, page, card] = await drawInTurn(drawings, drawnAgain(file), signal);
  if (cached === null && points !== undefined && page !== undefined && card !== undefined)
    cache?.texts?.put(cacheInputs, { page, card, points });
  return reportFiles(folder);
}

/** Everything but the map itself, drawn again from it, with `more` beside it. Throws DrawingError where a file could not be drawn. */
export async function writeDrawn(
  map: StabilityMap,
  folder: string,
  more: readonly Drawing[],
  signal?: AbortSignal,
): Promise<DrawnFiles> {
  await drawInTurn([...drawingsOf(map, folder), ...stripsOf(map, folder), ...more], "", signal);
  return drawnFiles(folder);
}

interface CardWriting extends CardOptions {
  readonly signal?: AbortSignal;
}

/**
 * The flight-test card alone, of a map in a file or, with null, of one that was simulated just now. If the card cannot be
 * drawn, that map is written in its place and DrawingError is thrown.
 */
export async function writeCard(
  map: StabilityMap,
  folder: string,
  from: string | null,
  { signal, testStand }: CardWriting = {},
): Promise<string> {
  const { card } = drawnFiles(folder);
  const drawings = [{ path: card, draw: () => renderCard(map, { testStand }) }];
  try {
    await drawInTurn(drawings, drawnAgain(from ?? mapFile(folder)), signal);
  } catch (error) {
    if (error instanceof DrawingError && from === null) writeMap(canonicalJson(sealed(map)), folder);
    throw error;
  }
  return card;
}

/** Where the files of a map go. */
export const reportFiles = (folder: string): ReportFiles => ({
  map: mapFile(folder),
  strips: stripsFile(folder),
  ...drawnFiles(folder),
});

/** The map.json of a folder. */
export const mapFile = (folder: string): string => join(folder, "map.json");

const stripsFile = (folder: string): string => join(folder, "strips.csv");

function writeMap(text: string, folder: string): void {
  const drawn = [...Object.values(drawnFiles(folder)), ...Object.values(effectFiles(folder)), stripsFile(folder)];
  drawn.forEach(removeIfThere);
  writeAtomically(mapFile(folder), `${text}\n`);
}

const drawnAgain = (file: string): string =>
  `The map is in ${file}: ${shellLine(["gainscape", "report", file])} draws it again`;

const drawnFiles = (folder: string): DrawnFiles => ({
  points: join(folder, "points.csv"),
  card: join(folder, "card.html"),
  page: join(folder, "index.html"),
});

function drawingsOf(map: StabilityMap, folder: string): Drawing[] {
  const { points, page, card } = drawnFiles(folder);
  return [
    { path: points, draw: () => renderCsv(map) },
    { path: page, draw: () => renderPage(map, pageScript(), pageKernels(map)) },
    { path: card, draw: () => renderCard(map) },
  ];
}

const stripsOf = (map: StabilityMap, folder: string): Drawing[] =>
  map.strips === undefined ? [] : [{ path: stripsFile(folder), draw: () => renderStripsCsv(map) }];

/** The texts of the drawn files. */
type DrawnTexts = Readonly<Record<keyof DrawnFiles, string>>;

function cachedDrawings(cached: DrawnTexts, folder: string): Drawing[] {
  const files = drawnFiles(folder);
  return (["points", "page", "card"] as const).map((name) => ({ path: files[name], draw: () => cached[name] }));
}

const drawnFrom = ({ page, card, points }: Texts): DrawnTexts | null =>
  page === undefined || card === undefined || points === undefined ? null : { page, card, points };
