// Second step of the build: translates src/kernel/loop.ts and src/response/passes.ts into dist/kernel/vector-N-C.wasm for N
// rotors, coupled (C 1) or not.
import { writeFileSync } from "node:fs";
import { kernelModule } from "./kernel-module.js";
import { readSources } from "./sources.js";

const [source, target] = process.argv.slice(2);
if (source === undefined || target === undefined) throw new Error("usage: build.js SOURCE_FOLDER TARGET_FOLDER");

const { loop, passes } = readSources(source);
for (const rotors of [4, 5, 6, 7, 8])
  for (const coupled of [0, 1] as const)
    writeFileSync(`${target}/kernel/vector-${rotors}-${coupled}.wasm`, kernelModule(loop, passes, rotors, coupled));
