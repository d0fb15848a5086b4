// What is translated: the loop, every pass over its traces, and theory's over its frequencies; or, to be printed, any function of a file.
import { readFileSync } from "node:fs";
import { layoutFileOf, namedImports, readConstants } from "./constants.js";
import { functionsIn, type Module, readModule, readProgram } from "./program.js";
import type { DialectFunction } from "./statements.js";
import type { Helper, Program } from "./tree.js";

/** Programs of the source tree in `folder`. */
export function readSources(folder: string): { loop: Program; passes: ReadonlyMap<string, Program>; marks: Program } {
  const passes = `${folder}/response/passes.ts`;
  const names = functionsIn(passes, readFileSync(passes, "utf8"));
  return {
    loop: readOne(`${folder}/kernel/loop.ts`, "advance"),
    passes: new Map(names.map((name) => [name, readOne(passes, name)])),
    marks: readOne(`${folder}/theory/lane-pass.ts`, "marks"),
  };
}

/** The function called `name` of a file, with the constants of the file it imports as m and the functions it imports by name. */
export function readOne(file: string, name: string): Program {
  const text = readFileSync(file, "utf8");
  return readProgram(file, text, constantsFor(file, text), name, importedBy(file, text));
}

function constantsFor(file: string, text: string): ReadonlyMap<string, number> {
  const layout = layoutFileOf(file, text);
  return layout === null ? new Map() : readConstants(layout, readFileSync(layout, "utf8"));
}

/** Functions of the dialect that a file imports, of one line or several. */
function importedBy(file: string, text: string): Module {
  const helpers = new Map<string, Helper>();
  const functions = new Map<string, DialectFunction>();
  for (const { from, names } of namedImports(file, text)) {
    const other = readFileSync(from, "utf8");
    const module = readModule(from, other, constantsFor(from, other), importedBy(from, other));
    for (const name of names) {
      const [helper, several] = [module.helpers.get(name), module.functions.get(name)];
      if (helper !== undefined) helpers.set(name, helper);
      if (several !== undefined) functions.set(name, several);
    }
  }
  return { helpers, functions };
}
