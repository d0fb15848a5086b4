// The seal of a JSON file of ours: a digest of everything else in it, so that a change made after it was written is seen.
// It covers the values, not the layout: a file that was only reformatted keeps a valid seal.
import { digestOf } from "./digest.js";

/** The value with its seal; the seal it may have had is replaced. */
export const sealed = <T extends object>(value: T): T & { readonly seal: string } => ({
  ...value,
  seal: digestOf({ ...value, seal: undefined }),
});

/** Why a file's seal is not valid. */
export type SealFault = "no seal" | "broken seal" | "no number";

/** What is under the seal, and what is wrong with it; null where it is valid. */
export function checkSeal(value: object): { readonly content: object; readonly fault: SealFault | null } {
  const { seal, ...content } = value as { readonly seal?: unknown };
  return { content, fault: sealFault(content, seal) };
}

function sealFault(content: object, seal: unknown): SealFault | null {
  try {
    const digest = digestOf(content);
    if (seal === undefined) return "no seal";
    return seal === digest ? null : "broken seal";
  } catch (error) {
    if (error instanceof RangeError) return "no number"; // too large to be one: such a file was never written
    throw error;
  }
}
