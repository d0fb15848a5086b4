// Second step of the build: translates src/kernel/loop.ts into dist/kernel/vector-N-W.wasm for N rotors, whole (W 1) or not.
import { readFileSync, writeFileSync } from "node:fs";
import { readConstants } from "./constants.js";
import { kernelModule } from "./kernel-module.js";
import { readProgram } from "./program.js";

const [source, target] = process.argv.slice(2);
if (source === undefined || target === undefined) throw new Error("usage: build.js SOURCE_FOLDER TARGET_FOLDER");

const read = (name: string): [string, string] => [`${source}/${name}`, readFileSync(`${source}/${name}`, "utf8")];
const program = readProgram(...read("loop.ts"), readConstants(...read("memory.ts")));
for (const rotors of [4, 5, 6, 7, 8])
  for (const whole of [0, 1] as const)
    writeFileSync(`${target}/vector-${rotors}-${whole}.wasm`, kernelModule(program, rotors, whole));
