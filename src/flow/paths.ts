// Where results go.
import { join } from "node:path";
import { craftFolder, pairFolder, sweepFolder } from "../base/folder-name.js";

interface Named {
  readonly name: string;
  readonly version: string;
}

/** reports/<sweep>/<airframe>-<version>. */
export const mapFolder = (sweep: string, airframe: Named): string =>
  join("reports", sweepFolder(sweep), craftFolder(airframe));

/** <root>/<sweep>/<base>-to-<candidate>. */
export const comparisonFolder = (root: string, sweep: string, base: Named, candidate: Named): string =>
  join(root, sweepFolder(sweep), pairFolder(base, candidate));

/** <root>/<sweep>/<airframe>-<version>.json. */
export const baselineFile = (root: string, sweep: string, airframe: Named): string =>
  join(root, sweepFolder(sweep), `${craftFolder(airframe)}.json`);

export interface EffectFiles {
  readonly effects: string;
  readonly effectsPage: string;
}

/** Where a sweep's changes go, beside the map of the model as it is. */
export const effectFiles = (folder: string): EffectFiles => ({
  effects: join(folder, "effects.json"),
  effectsPage: join(folder, "effects.html"),
});
