// One function carried through every stage of the translation, for whoever wants to see it.
import { SEGMENT_SIZE } from "./kernel-module.js";
import { Layout } from "./layout.js";
import { lower } from "./lower.js";
import { printSegments, printSteps } from "./print-steps.js";
import { printTree } from "./print-tree.js";
import { printCode } from "./print-wasm.js";
import { segmentsOf } from "./segments.js";
import type { Program } from "./tree.js";
import { unroll } from "./unroll.js";

export interface Stage {
  readonly title: string;
  readonly text: string;
}

/** For one vector of two lanes; `counts` are what is known at build time. Throws where the function cannot be translated. */
export function translationStages(program: Program, counts: Readonly<Record<string, number>>): readonly Stage[] {
  const settings = { name: "printed", counts, pairs: 1, interleave: 1, segmentSize: SEGMENT_SIZE };
  const { steps, open } = unroll(program, counts, new Layout(program, counts, settings.pairs).firstCount);
  const pointers = program.arrays.map(({ name }) => name);
  const parameters = [...pointers, "bytes between two traces", ...open].map((name, at) => `${at} ${name}`).join(", ");
  return [
    { title: "read (program.ts, expressions.ts)", text: printTree(program) },
    { title: "unrolled (unroll.ts)", text: printSteps(steps) },
    { title: "cut into segments (segments.ts)", text: printSegments(segmentsOf(steps, settings.segmentSize)) },
    {
      title: `lowered to WebAssembly (lower.ts, wasm.ts); parameters: ${parameters}`,
      text: printCode(lower(program, settings).body).join("\n"),
    },
  ];
}
