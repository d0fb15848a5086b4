// What a CI server reads after a night of comparisons: one JUnit file and one Markdown summary for all of them.
import { join } from "node:path";
import type { Drift } from "../compare/format.js";
import { removeIfThere } from "../files/write.js";
import { renderDriftMarkdown, renderJunit } from "../report/index.js";
import { drawInTurn } from "./undrawn.js";

export interface GateFiles {
  readonly junit: string;
  readonly summary: string;
}

/** Where the files of a night go. */
export const gateFiles = (folder: string): GateFiles => ({
  junit: join(folder, "junit.xml"),
  summary: join(folder, "summary.md"),
});

/** Takes away what an earlier night left: a night that ends early must not be read as the last one that did not. */
export function removeGateFiles(folder: string): void {
  Object.values(gateFiles(folder)).forEach(removeIfThere);
}

/** Throws Undrawn where one of them could not be drawn; the other is there. */
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
  await drawInTurn(drawings, `Each comparison is kept in a drift.json in ${folder}`, signal);
  return files;
}
