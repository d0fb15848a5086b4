// Writes what a fit found: fit.json first, then the page drawn from it.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { craftFolder } from "../base/folder-name.js";
import { writeAtomically } from "../files/write.js";
import type { FitFile } from "../fit/format.js";
import { fitPage } from "../report/index.js";
import { drawInTurn } from "./drawing.js";

export const FIT_NAMES: readonly string[] = ["fit.json", "index.html"];

/** reports/fits/<airframe>-<version> */
export const fitFolder = (model: FitFile["model"]): string => join("reports", "fits", craftFolder(model));

/** Throws DrawingError where the page could not be drawn; fit.json is there. */
export async function writeFit(
  fit: FitFile,
  folder: string,
  signal?: AbortSignal,
): Promise<{ readonly fit: string; readonly page: string }> {
  const [file, page] = [join(folder, "fit.json"), join(folder, "index.html")];
  writeAtomically(file, `${canonicalJson(fit)}\n`);
  await drawInTurn([{ path: page, draw: () => fitPage(fit) }], `What was found is in ${file}`, signal);
  return { fit: file, page };
}
