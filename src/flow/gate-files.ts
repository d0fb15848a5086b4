// What people and a CI server read after a gate: a front page, a Markdown summary, JUnit XML and SARIF for all comparisons.
import { join, relative, sep } from "node:path";
import type { Document } from "../base/document.js";
import type { Path } from "../base/problem.js";
import { version } from "../base/version.js";
import type { Drift } from "../compare/format.js";
import { namesIn } from "../files/binary.js";
import { isFile, isFolder } from "../files/folder.js";
import { removeFolderIfEmpty, removeIfThere } from "../files/write.js";
import {
  type ChangedLine,
  type NightPair,
  renderJunit,
  renderNight,
  renderNightMarkdown,
  renderSarif,
  tellingGate,
} from "../report/index.js";
import { gateKey } from "../words/why-words.js";
import { comparisonFiles } from "./compare.js";
import { drawInTurn } from "./drawing.js";

export interface GateFiles {
  readonly page: string;
  readonly junit: string;
  readonly summary: string;
  readonly sarif: string;
}

const NAMES: GateFiles = { page: "index.html", junit: "junit.xml", summary: "summary.md", sarif: "gate.sarif" };

export const GATE_NAMES: readonly string[] = Object.values(NAMES);

/** Where the files of a gate run go. */
export const gateFiles = (folder: string): GateFiles => ({
  page: join(folder, NAMES.page),
  junit: join(folder, NAMES.junit),
  summary: join(folder, NAMES.summary),
  sarif: join(folder, NAMES.sarif),
});

/**
 * Removes the files of an earlier run, its comparisons with them: where this one ends early, or compares other pairs, they must
 * not be read as its result. What a gate never writes stays.
 */
export function removeGateFiles(folder: string): void {
  Object.values(gateFiles(folder)).forEach(removeIfThere);
  for (const sweep of foldersIn(folder)) {
    for (const pair of foldersIn(sweep)) {
      const files = comparisonFiles(pair);
      if (!pair.includes("-to-") || !isFile(files.drift)) continue;
      Object.values(files).forEach(removeIfThere);
      removeFolderIfEmpty(pair);
    }
    removeFolderIfEmpty(sweep);
  }
}

const foldersIn = (folder: string): string[] =>
  isFolder(folder)
    ? namesIn(folder)
        .map((name) => join(folder, name))
        .filter(isFolder)
    : [];

/** A comparison of the gate in `root` as its summaries read it; `model` is the candidate's. */
export const nightPair = (drift: Drift, root: string, folder: string, model: Document): NightPair => ({
  drift,
  folder: relative(root, folder).split(sep).join("/"),
  changed: changedLine(drift, model),
});

/**
 * Where the key stands that did most to the gate that tells most, or else the first that changed; what is computed from the
 * parts of the frame stands there.
 */
function changedLine(drift: Drift, document: Document): ChangedLine | null {
  const telling = tellingGate(drift);
  const key = (telling === null ? null : gateKey(drift, telling)) ?? drift.model[0]?.key;
  if (key === undefined) return null;
  return { file: document.file, key, ...document.place(pathOf(key), "key") };
}

const OF_FRAME = /^(mass|centre_of_mass|inertia)\b/;

/** "pack.open_circuit[2][1] ±" as a path. */
function pathOf(key: string): Path {
  if (OF_FRAME.test(key)) return ["frame"];
  const [spelled = ""] = /^[\w.[\]]*/.exec(key) ?? [];
  return [...spelled.matchAll(/\w+/g)].map(([part]) => (/^\d+$/.test(part) ? Number(part) : part));
}

/** Throws DrawingError where one of them could not be drawn; the others are there. `command` makes them again. */
export async function writeGateFiles(
  pairs: readonly NightPair[],
  folder: string,
  command: string,
  signal?: AbortSignal,
): Promise<GateFiles> {
  const files = gateFiles(folder);
  const drawings = [
    { path: files.summary, draw: () => renderNightMarkdown(pairs) },
    { path: files.junit, draw: () => renderJunit(pairs.map(({ drift }) => drift)) },
    { path: files.sarif, draw: () => renderSarif(pairs, version()) },
    { path: files.page, draw: () => renderNight(pairs, command) },
  ];
  await drawInTurn(drawings, `Each comparison is in a drift.json in ${folder}`, signal);
  return files;
}
