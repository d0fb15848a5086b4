// What is loaded before a command can say anything, as the sources import it: what draws, simulates or belongs to another command
// would cost every start a good part of a second.
import { readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, it } from "vitest";
import { importsOf } from "../imports.js";
import { ROOMS } from "../rooms.js";

/** Rooms and packages that a file of src/ is loaded with. */
function loadedWith(first: string): { readonly rooms: readonly string[]; readonly packages: readonly string[] } {
  const files = new Set<string>();
  const packages = new Set<string>();
  const visit = (file: string): void => {
    if (files.has(file)) return;
    files.add(file);
    for (const { from, typeOnly, onDemand } of importsOf(file, readFileSync(join("src", file), "utf8"))) {
      if (typeOnly || onDemand === true) continue;
      if (from.startsWith(".")) visit(posix.join(posix.dirname(file), from).replace(/\.js$/, ".ts"));
      else if (!from.startsWith("node:")) packages.add(from);
    }
  };
  visit(first);
  const rooms = new Set([...files].map((file) => file.slice(0, file.indexOf("/"))));
  return { rooms: [...rooms].sort(), packages: [...packages].sort() };
}

const LATER = ["kernel", "response", "charts", "report", "page-data", "fit", "confidence", "strips"];

describe("what a command waits for before it says a word", () => {
  it("the command line loads no command, no schema and none of what they work with", () => {
    const { rooms, packages } = loadedWith("cli/command-line.ts");
    expect(rooms).toEqual(["base", "cli", "estimate", "files", "flow", "run", "trend", "words"]);
    expect(packages).toEqual(["commander", "yaml"]);
  });

  it("a sweep's first answer needs theory, but nothing that simulates or draws", () => {
    const { rooms, packages } = loadedWith("cli/sweep.ts");
    expect(rooms).toContain("theory");
    for (const room of LATER) {
      expect(Object.keys(ROOMS)).toContain(room);
      expect(rooms).not.toContain(room);
    }
    expect(packages).toEqual(["commander", "ml-matrix", "yaml", "zod"]);
  });
});
