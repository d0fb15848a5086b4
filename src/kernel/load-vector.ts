// Loads the vector kernels, which the build puts into the folder of this file.
import { existsSync, readFileSync } from "node:fs";
import { type KernelShape, type VectorKernel, vectorKernelOf } from "./vector.js";

/** The module for craft of this shape, as bytes; null where the build has none. */
export function vectorCode({ rotors, coupled, extended, yaw }: KernelShape): Uint8Array | null {
  const file = new URL(`./vector-${rotors}-${coupled}-${extended}-${yaw}.wasm`, import.meta.url);
  return existsSync(file) ? readFileSync(file) : null;
}

/** The kernel for craft of this shape, or null where the machine or the build has none: then loop.ts runs. */
export function loadVectorKernel(shape: KernelShape): VectorKernel | null {
  const code = vectorCode(shape);
  if (code === null) return null;
  try {
    return vectorKernelOf(code);
  } catch {
    return null;
  }
}
