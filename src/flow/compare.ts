// Two maps compared and the result written: the page, drift.json, JUnit XML and a Markdown summary.
import { join } from "node:path";
import { lineJson } from "../base/canonical.js";
import { fileProblem, InputError } from "../base/problem.js";
import { sealed } from "../base/seal.js";
import { version } from "../base/version.js";
import { judgedAlike } from "../compare/alike.js";
import { compareMaps } from "../compare/compare.js";
import type { Drift, KeyChange } from "../compare/format.js";
import { planOf } from "../compare/question.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { removeIfThere, writeAtomically } from "../files/write.js";
import type { StabilityMap } from "../map/format.js";
import { renderComparison, renderDriftMarkdown, renderJunit } from "../report/index.js";
import { drawInTurn } from "./drawing.js";

/** A map and what to call it in a message: its file, or the model it was simulated with. */
export interface NamedMap {
  readonly name: string;
  readonly map: StabilityMap;
}

export interface Comparison {
  readonly drift: Drift;
  readonly base: StabilityMap;
  readonly candidate: StabilityMap;
}

/** Throws InputError with every difference where the two do not answer the same question. */
export function compare(
  base: NamedMap,
  candidate: NamedMap,
  options: { readonly command: string; readonly notes?: readonly string[] },
): Comparison {
  const drift = compareMaps(base.map, candidate.map, { productVersion: version(), ...options });
  if ("differences" in drift)
    throw notComparable(base.name, candidate.name, drift.differences, ownLines(base, candidate));
  const alike = judgedAlike(base.map, candidate.map);
  return { drift, base: alike.base, candidate: alike.candidate };
}

/** Whether each map has the lines that were chosen for its own craft. */
const ownLines = (...sides: readonly NamedMap[]): boolean =>
  sides.every(({ map }) => planOf(map).sweep.autoGrid !== undefined);

/** Not a regression: the two sides answer different questions. `ownLines`: each has its own craft's. */
export function notComparable(
  base: string,
  candidate: string,
  differences: readonly KeyChange[],
  ownLines = false,
): InputError {
  const rest = ownLines
    ? "not comparable: grid auto gives each craft lines of its own; gainscape compare SWEEP --from MODEL --to MODEL simulates both on one grid"
    : "not comparable: make both sides with the same sweep file";
  const each = differences.map(({ key, before, after }) => ({
    ...fileProblem(candidate, `${after ?? "absent"}, but ${before ?? "absent"} in ${base}`),
    path: key,
  }));
  return new InputError([...each, fileProblem(candidate, rest)]);
}

export interface ComparisonFiles {
  readonly page: string;
  readonly drift: string;
  readonly junit: string;
  readonly summary: string;
}

/** Where the files of a comparison go. */
export function comparisonFiles(folder: string): ComparisonFiles {
  const file = (name: string) => join(folder, name);
  return {
    page: file("index.html"),
    junit: file("junit.xml"),
    summary: file("summary.md"),
    drift: file("drift.json"),
  };
}

/**
 * Writes drift.json, then JUnit XML, Markdown and page, each drawn in its turn; those of another comparison go first.
 * Throws DrawingError where a file could not be drawn; the others are there.
 */
export async function writeComparison(
  comparison: Comparison,
  folder: string,
  signal?: AbortSignal,
): Promise<ComparisonFiles> {
  const { drift } = comparison;
  const files = comparisonFiles(folder);
  await unlessInterrupted(signal, files.drift);
  [files.page, files.junit, files.summary].forEach(removeIfThere);
  writeAtomically(files.drift, `${lineJson(sealed(drift))}\n`);
  const drawings = [
    { path: files.junit, draw: () => renderJunit([drift]) },
    { path: files.summary, draw: () => renderDriftMarkdown(drift) },
    { path: files.page, draw: () => renderComparison(comparison) },
  ];
  await drawInTurn(drawings, `The comparison is in ${files.drift}`, signal);
  return files;
}
