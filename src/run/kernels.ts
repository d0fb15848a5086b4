// Vector kernels of one plan's craft, each loaded once.
import type { Rig } from "../kernel/rig.js";
import { type KernelShape, kernelShapeOf, type VectorKernel } from "../kernel/vector.js";

/** The vector kernel for a shape of craft; null: there is none, and the plain loop runs. */
export type KernelFor = (shape: KernelShape) => VectorKernel | null;

/** Gives the kernel of a rig. */
export function kernelsOf(kernelFor: KernelFor): (rig: Rig) => VectorKernel | null {
  const kernels = new Map<string, VectorKernel | null>();
  return (rig) => {
    const shape = kernelShapeOf(rig);
    const key = `${shape.coupled} ${shape.yaw}`; // a plan's craft differ in nothing else
    const cached = kernels.get(key);
    const kernel = cached === undefined ? kernelFor(shape) : cached;
    kernels.set(key, kernel);
    return kernel;
  };
}
