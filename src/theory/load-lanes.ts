// Loads theory's translated pass, which the build puts into the folder of this file.
import { existsSync, readFileSync } from "node:fs";

/** The module as bytes; null where the build has none. */
export function lanesCode(): Uint8Array | null {
  const file = new URL("./lanes.wasm", import.meta.url);
  return existsSync(file) ? readFileSync(file) : null;
}
