// The same bytes under every version of Node the package runs on, vectors and without.
import { cpSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { digestOf, expectCode, expectSame, inFolder, MAIN, NIGHTLY, ROOT } from "./command.mjs";

const ENGINES = ["20", "22", "24"];
const FILES = ["map.json", "points.csv"];

export const step = () =>
  inFolder(async (home) => {
    // The build without its bytecode simulates every trial by the plain loop.
    cpSync(join(ROOT, "dist"), join(home, "plain/dist"), {
      recursive: true,
      filter: (file) => !file.endsWith(".wasm"),
    });
    cpSync(join(ROOT, "package.json"), join(home, "plain/package.json"));
    symlinkSync(join(ROOT, "node_modules"), join(home, "plain/node_modules"));
    const versions = [];
    const skipped = [];
    let first;
    for (const engine of ENGINES) {
      const node = ["-y", `node@${engine}`];
      const version = await versionOf(node, home);
      if (version === null) {
        skipped.push(`Node ${engine}`);
        continue;
      }
      for (const main of [MAIN, join(home, "plain/dist/cli/main.js")]) {
        const out = join(home, `${engine}-${versions.length}`);
        await expectCode(0, "npx", [...node, main, "sweep", NIGHTLY, "--out", out, "--no-cache", "--quiet"], {
          cwd: home,
        });
        const digests = FILES.map((file) => digestOf(join(out, file))).join(" ");
        first ??= digests;
        expectSame(digests, first, `${version} ${main === MAIN ? "vectors" : "plain"}`);
        versions.push(version);
      }
    }
    const not = skipped.length === 0 ? "" : `; SKIPPED, not to be had here: ${skipped.join(", ")}`;
    if (versions.length === 0) return not.slice(2);
    return `${[...new Set(versions)].join(", ")}, with vectors and without: map.json ${first.slice(0, 12)}${not}`;
  });

/** What the engine calls itself, or null where it cannot be had. */
async function versionOf(node, cwd) {
  try {
    return (await expectCode(0, "npx", [...node, "--version"], { cwd })).trim().split("\n").at(-1);
  } catch {
    return null;
  }
}
