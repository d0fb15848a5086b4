// Writes what a sweep's changes do, beside the map of the model as it is: the data first, then the page.
import { canonicalJson } from "../base/canonical.js";
import { sealed } from "../base/seal.js";
import { shellLine } from "../base/shell-words.js";
import type { Effects } from "../compare/effect-format.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { writeAtomically } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import { renderEffects } from "../report/index.js";
import type { ChangedMaps } from "./changes.js";
import { type Drawing, drawInTurn } from "./drawing.js";
import { type EffectFiles, effectFiles } from "./paths.js";

/** Throws DrawingError where the page could not be drawn; the data is there. */
export async function writeEffects(
  { effects }: ChangedMaps,
  asItIs: StabilityMap,
  folder: string,
  signal?: AbortSignal,
): Promise<EffectFiles> {
  const files = effectFiles(folder);
  await unlessInterrupted(signal, files.effects);
  writeAtomically(files.effects, `${canonicalJson(sealed(effects))}\n`);
  const again = shellLine(["gainscape", "report", folder]);
  await drawInTurn(
    [effectsDrawing(effects, asItIs, folder)],
    `The numbers are in ${files.effects}: ${again} draws it again`,
    signal,
  );
  return files;
}

/** The page that stands beside the map's own. */
export const effectsDrawing = (effects: Effects, asItIs: StabilityMap, folder: string): Drawing => ({
  path: effectFiles(folder).effectsPage,
  draw: () => renderEffects(effects, asItIs),
});
