// The page may use its own style sheet, its own script if it has one, and nothing else: no network, nothing evaluated.
import { createHash } from "node:crypto";

/**
 * Value of the policy for a page with this one style sheet and, where given, this one script; `compiles` where the script
 * brings WebAssembly along.
 */
export function contentPolicy(style: string, script: string | null = null, compiles = false): string {
  const own = script === null ? "" : `script-src ${hashed(script)}${compiles ? " 'wasm-unsafe-eval'" : ""}; `;
  return `default-src 'none'; ${own}style-src ${hashed(style)}; img-src data:; base-uri 'none'; form-action 'none'`;
}

const hashed = (text: string): string => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
