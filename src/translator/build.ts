// Second step of the build: translates src/kernel/loop.ts into dist/kernel/vector-N.wasm for N rotors.
import { readFileSync, writeFileSync } from "node:fs";
import { readConstants } from "./constants.js";
import { kernelModule } from "./kernel-module.js";
import { readProgram } from "./program.js";

const [source, target] = process.argv.slice(2);
if (source === undefined || target === undefined) throw new Error("usage: build.js SOURCE_FOLDER TARGET_FOLDER");

const read = (name: string): [string, string] => [`${source}/${name}`, readFileSync(`${source}/${name}`, "utf8")];
const program = readProgram(...read("loop.ts"), readConstants(...read("memory.ts")));
for (const rotors of [4, 5, 6, 7, 8]) writeFileSync(`${target}/vector-${rotors}.wasm`, kernelModule(program, rotors));
