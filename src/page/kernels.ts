// The vector kernels embedded in the page. Where there are none, or the browser may not compile them, the plain kernel runs.
import { type VectorKernel, vectorKernelOf } from "../kernel/vector.js";
import type { KernelFor } from "../run/kernels.js";

export function kernelsIn(page: Document): KernelFor {
  const text = page.getElementById("map-kernels")?.textContent;
  const codes = text ? (JSON.parse(text) as (string | null)[]) : [];
  return ({ coupled, yaw }) => compiled(yaw === 1 ? null : (codes[coupled] ?? null));
}

function compiled(code: string | null): VectorKernel | null {
  if (code === null) return null;
  try {
    return vectorKernelOf(Uint8Array.from(atob(code), (byte) => byte.charCodeAt(0)));
  } catch {
    return null;
  }
}
