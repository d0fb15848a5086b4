// What is translated: the loop, every pass over its traces, and theory's over its frequencies; or, to be printed, any function of a file.
import { readFileSync } from "node:fs";
import { layoutFileOf, readConstants } from "./constants.js";
import { functionsIn, readProgram } from "./program.js";
import type { Program } from "./tree.js";

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

/** The function called `name` of a file, with the constants of the file it imports as m. */
export function readOne(file: string, name: string): Program {
  const text = readFileSync(file, "utf8");
  const layout = layoutFileOf(file, text);
  const constants = layout === null ? new Map() : readConstants(layout, readFileSync(layout, "utf8"));
  return readProgram(file, text, constants, name);
}
