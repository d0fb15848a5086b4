// Whatever a file calls its craft or sweep, results stay below the folder they are meant for.
import { resolve, sep } from "node:path";
import fc from "fast-check";
import { expect, it } from "vitest";
import { baselineFile, comparisonFolder, mapFolder } from "../../src/flow/paths.js";
import { hostile, tried } from "./cases.js";

const text = hostile.map(String);
const craft = fc.record({ name: text, version: text });

it("no name leads out of a folder, and every part of a path is a plain one", () => {
  tried(0.3, fc.tuple(text, craft, craft), ([sweep, one, other]) => {
    for (const path of [
      mapFolder(sweep, one),
      comparisonFolder("reports", sweep, one, other),
      baselineFile("reports", sweep, one),
    ]) {
      expect(resolve(path).startsWith(resolve("reports") + sep)).toBe(true);
      for (const segment of path.split(sep)) expect(segment).toMatch(/^[\p{L}\p{M}\p{N}-]+(\.json)?$/u);
      for (const segment of path.split(sep)) expect(Buffer.byteLength(segment)).toBeLessThan(256);
    }
  });
});
