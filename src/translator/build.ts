// Second step of the build: translates src/kernel/loop.ts and src/response/passes.ts into dist/kernel/vector-N-C-E-Y.wasm for N
// rotors and each of BUILDS, and src/theory/lane-pass.ts into dist/theory/lanes.wasm. With --print: the stages of one function
// instead, on standard output.
import { readdirSync, rmSync, writeFileSync } from "node:fs";
import { BUILDS, kernelModule, theoryModule } from "./kernel-module.js";
import { readOne, readSources } from "./sources.js";
import { translationStages } from "./stages.js";

const USAGE = "usage: build.js SOURCE_FOLDER TARGET_FOLDER, or build.js --print FILE FUNCTION [COUNT=NUMBER ...]";

function build(source: string, target: string): void {
  const { loop, passes, marks } = readSources(source);
  // What an earlier build made for other shapes would be shipped with it.
  for (const file of readdirSync(`${target}/kernel`)) if (file.endsWith(".wasm")) rmSync(`${target}/kernel/${file}`);
  writeFileSync(`${target}/theory/lanes.wasm`, theoryModule(marks));
  for (const rotors of [4, 5, 6, 7, 8])
    for (const { coupled, extended, yaw } of BUILDS)
      writeFileSync(
        `${target}/kernel/vector-${rotors}-${coupled}-${extended}-${yaw}.wasm`,
        kernelModule(loop, passes, { rotors, coupled, extended, yaw }),
      );
}

function print(file: string, name: string, words: readonly string[]): void {
  const counts = words.map((word) => {
    const [, count, value] = /^(\w+)=(\d+)$/.exec(word) ?? [];
    if (count === undefined) throw new Error(`${word} is no count; ${USAGE}`);
    return [count, Number(value)] as const;
  });
  for (const { title, text } of translationStages(readOne(file, name), Object.fromEntries(counts)))
    process.stdout.write(`== ${title}\n${text}\n\n`);
}

try {
  const [first, second, third, ...rest] = process.argv.slice(2);
  if (first === "--print" && second !== undefined && third !== undefined) print(second, third, rest);
  else if (first !== "--print" && first !== undefined && second !== undefined) build(first, second);
  else throw new Error(USAGE);
} catch (error) {
  process.stderr.write(`${(error as Error).message}\n`);
  process.exitCode = 1;
}
