// The vector kernels as the build left them, beside this file.
import { readFileSync } from "node:fs";
import { type KernelShape, type VectorKernel, vectorKernelOf } from "./vector.js";

/** The module for craft of this shape, as bytes. Throws where the build has none. */
export const vectorCode = ({ rotors, whole }: KernelShape): Uint8Array =>
  readFileSync(new URL(`./vector-${rotors}-${whole}.wasm`, import.meta.url));

/** The kernel for craft of this shape, or null where the machine or the build has none: then loop.ts flies. */
export function loadVectorKernel(shape: KernelShape): VectorKernel | null {
  try {
    return vectorKernelOf(vectorCode(shape));
  } catch {
    return null;
  }
}
