import { resolve } from "node:path";
import { defineConfig } from "vitest/config";
import { patience } from "./patience.js";

const limit = patience();
// Where the CI script wants its closing line, the counts go there as well.
const summary = process.env.GAINSCAPE_SUMMARY;

export default defineConfig({
  root: resolve(import.meta.dirname, ".."),
  // The loop runs hundreds of millions of steps in here: as built, since the test transform makes it six times slower.
  resolve: {
    alias: [
      { find: /^(?:.*\/kernel|\.)\/(loop|load-vector)\.js$/, replacement: resolve("dist/kernel/$1.js") },
      { find: /^\.\/load-lanes\.js$/, replacement: resolve("dist/theory/load-lanes.js") },
    ],
  },
  test: {
    include: ["test/**/*.test.ts"],
    // Worker threads and command lines are tested as they are shipped, from dist.
    globalSetup: ["test/build.ts", "test/shared.ts"],
    pool: "threads",
    maxWorkers: 2,
    testTimeout: limit,
    hookTimeout: limit,
    reporters: summary === undefined ? ["default"] : ["default", "./test/summary-reporter.ts"],
  },
});
