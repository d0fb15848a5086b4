// What is translated: the loop, and every pass over its traces.
import { readFileSync } from "node:fs";
import { readConstants } from "./constants.js";
import { functionsIn, readProgram } from "./program.js";
import type { Program } from "./tree.js";

/** Programs of the source tree in `folder`. */
export function readSources(folder: string): { loop: Program; passes: ReadonlyMap<string, Program> } {
  const read = (name: string): [string, string] => [`${folder}/${name}`, readFileSync(`${folder}/${name}`, "utf8")];
  const loop = readProgram(...read("kernel/loop.ts"), readConstants(...read("kernel/memory.ts")), "advance");
  const places = readConstants(...read("response/sums.ts"));
  const passes = read("response/passes.ts");
  return { loop, passes: new Map(functionsIn(...passes).map((name) => [name, readProgram(...passes, places, name)])) };
}
