// The digest of a module as it is built, with every module it loads: what was computed by other code has another
// digest, whatever version either calls itself.
import { readdirSync, readFileSync, statSync } from "node:fs";
import { hex, sha256 } from "../base/digest.js";

/** Relative paths a module loads modules from. */
const LOADED = /\b(?:from|import)\s*\(?\s*"(\.{1,2}\/[^"]+)"/g;

/** 64 hexadecimal digits over the bytes of all modules reached from the entries, and of the WebAssembly beside them. */
export function moduleDigest(...entries: readonly URL[]): string {
  const found = new Map<string, Uint8Array>();
  const visit = (module: URL): void => {
    const file = sourceOf(module);
    if (file === null || found.has(file.href)) return;
    const bytes = readFileSync(file);
    found.set(file.href, bytes);
    for (const [, loaded] of bytes.toString("utf8").matchAll(LOADED)) visit(new URL(loaded as string, module));
  };
  entries.forEach(visit);
  const folders = new Set([...found.keys()].map((file) => new URL(".", file).href));
  for (const file of [...folders].flatMap(bytecodeIn)) found.set(file.href, readFileSync(file));
  // By content alone: neither the folder it is installed in nor the order of reading may count.
  const digests = [...found.values()].map((bytes) => hex(sha256(bytes))).sort();
  return hex(sha256(digests.join("\n")));
}

/** The file of a module; run from its sources, a ".js" is still a ".ts". */
function sourceOf(module: URL): URL | null {
  const source = new URL(module.href.replace(/\.js$/, ".ts"));
  return [module, source].find((file) => statSync(file, { throwIfNoEntry: false })?.isFile()) ?? null;
}

const bytecodeIn = (folder: string): URL[] =>
  readdirSync(new URL(folder))
    .filter((name) => name.endsWith(".wasm"))
    .map((name) => new URL(name, folder));
