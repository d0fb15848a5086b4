// What a CI server reads after a night of comparisons: one JUnit file and one Markdown summary for all of them.
import { join } from "node:path";
import type { Drift } from "../compare/format.js";
import { writeInTurn } from "../files/write.js";
import { renderDriftMarkdown, renderJunit } from "../report/index.js";

export interface NightFiles {
  readonly junit: string;
  readonly summary: string;
}

export async function writeNight(drifts: readonly Drift[], folder: string, signal?: AbortSignal): Promise<NightFiles> {
  const files = { junit: join(folder, "junit.xml"), summary: join(folder, "summary.md") };
  await writeInTurn(
    [
      [files.summary, drifts.map(renderDriftMarkdown).join("\n")],
      [files.junit, renderJunit(drifts)],
    ],
    signal,
  );
  return files;
}
