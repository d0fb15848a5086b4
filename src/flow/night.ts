// What a CI server reads after a night of comparisons: one JUnit file and one Markdown summary for all of them.
import { join } from "node:path";
import type { Drift } from "../compare/format.js";
import { removeIfThere, writeInTurn } from "../files/write.js";
import { renderDriftMarkdown, renderJunit } from "../report/index.js";

export interface NightFiles {
  readonly junit: string;
  readonly summary: string;
}

const nightFiles = (folder: string): NightFiles => ({
  junit: join(folder, "junit.xml"),
  summary: join(folder, "summary.md"),
});

/** Takes away what an earlier night left: a night that ends early must not be read as the last one that did not. */
export function forgetNight(folder: string): void {
  Object.values(nightFiles(folder)).forEach(removeIfThere);
}

export async function writeNight(drifts: readonly Drift[], folder: string, signal?: AbortSignal): Promise<NightFiles> {
  const files = nightFiles(folder);
  await writeInTurn(
    [
      [files.summary, drifts.map(renderDriftMarkdown).join("\n")],
      [files.junit, renderJunit(drifts)],
    ],
    signal,
  );
  return files;
}
