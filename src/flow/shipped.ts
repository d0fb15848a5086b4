// Files that came with the program: found beside it, wherever it is called from.
import { join } from "node:path";

const SWEEPS = join(import.meta.dirname, "..", "..", "sweeps");

/** The path is the same from src and from dist. */
export const shippedSweep = (name: string): string => join(SWEEPS, name);

export const shippedScript = (name: string): string => join(SWEEPS, "scripts", `${name}.yaml`);
