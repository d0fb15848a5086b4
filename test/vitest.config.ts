import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { defineConfig, type Plugin } from "vitest/config";
import { patience } from "./patience.js";

const limit = patience();
// Where the CI script wants its closing line, the counts go there as well.
const summary = process.env.GAINSCAPE_SUMMARY;
const root = resolve(import.meta.dirname, "..");

/** The built module of a source module. What the browser runs is bundled, so that its modules are tested as they are written. */
const asBuilt: Plugin = {
  name: "as built",
  enforce: "pre",
  resolveId(module, importer) {
    if (importer === undefined || !module.startsWith(".")) return null;
    const built = resolve(importer, "..", module).replace(`${root}/src/`, `${root}/dist/`);
    return built.startsWith(`${root}/dist/`) && existsSync(built) ? built : null;
  },
};

const common = { pool: "threads", testTimeout: limit, hookTimeout: limit } as const;
/** Files that put something of their own in the place of a source module. */
const replacing = ["test/flow/draw-shares.test.ts", "test/hostile/random-maps.test.ts"];

export default defineConfig({
  root,
  test: {
    globalSetup: ["test/build.ts", "test/shared.ts"],
    maxWorkers: 2,
    reporters: summary === undefined ? ["default"] : ["default", "./test/summary-reporter.ts"],
    projects: [
      {
        // What is tested is what is shipped. And it is faster: the transform of the tests makes inner loops six times slower.
        plugins: [asBuilt],
        test: {
          ...common,
          name: "as built",
          include: ["test/**/*.test.ts"],
          exclude: replacing,
          server: { deps: { external: [/\/dist\//] } },
          // A file does not load again what the file before it in its thread has loaded: a third of all processor time.
          isolate: false,
        },
      },
      {
        resolve: {
          alias: [
            { find: /^(?:.*\/kernel|\.)\/(loop|load-vector)\.js$/, replacement: resolve("dist/kernel/$1.js") },
            { find: /^\.\/load-lanes\.js$/, replacement: resolve("dist/theory/load-lanes.js") },
          ],
        },
        test: { ...common, name: "as written", include: replacing },
      },
    ],
  },
});
