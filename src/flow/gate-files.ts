// What a CI server reads after a gate: one JUnit file and one Markdown summary for all comparisons.
import { join } from "node:path";
import type { Drift } from "../compare/format.js";
import { removeIfThere } from "../files/write.js";
import { renderDriftMarkdown, renderJunit } from "../report/index.js";
import { drawInTurn } from "./drawing.js";

export interface GateFiles {
  readonly junit: string;
  readonly summary: string;
}

/** Where the files of a gate run go. */
export const gateFiles = (folder: string): GateFiles => ({
  junit: join(folder, "junit.xml"),
  summary: join(folder, "summary.md"),
});

/** Removes the files of an earlier run: if this one ends early, they must not be read as its result. */
export function removeGateFiles(folder: string): void {
  Object.values(gateFiles(folder)).forEach(removeIfThere);
}

/** Throws DrawingError where one of them could not be drawn; the other is there. */
export async function writeGateFiles(
  drifts: readonly Drift[],
  folder: string,
  signal?: AbortSignal,
): Promise<GateFiles> {
  const files = gateFiles(folder);
  const drawings = [
    { path: files.summary, draw: () => drifts.map(renderDriftMarkdown).join("\n") },
    { path: files.junit, draw: () => renderJunit(drifts) },
  ];
  await drawInTurn(drawings, `Each comparison is in a drift.json in ${folder}`, signal);
  return files;
}
