// Holds the rooms of src/ to their table: who may import whom, which packages, no cycles, no long files.
import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, it } from "vitest";
import { type Import, importsOf } from "./imports.js";
import { ROOMS } from "./rooms.js";

const MOST_LINES = 300;

const files = readdirSync("src", { recursive: true, encoding: "utf8" })
  .map((file) => file.replaceAll("\\", "/"))
  .filter((file) => file.endsWith(".ts"))
  .sort();
const textOf = new Map(files.map((file) => [file, readFileSync(join("src", file), "utf8")]));
const importsBy = new Map(files.map((file) => [file, importsOf(file, textOf.get(file) ?? "")]));

const roomOf = (file: string): string => (file.includes("/") ? file.slice(0, file.indexOf("/")) : "");
const targetOf = (file: string, from: string): string => posix.join(posix.dirname(file), from).replace(/\.js$/, ".ts");

/** What is wrong with one import of a file, or null. */
function fault(file: string, { from, typeOnly }: Import): string | null {
  const name = roomOf(file);
  const room = ROOMS[name];
  const place = `src/${file} imports ${from}`;
  if (room === undefined)
    return `${place}: "${name}" is no room; put the file into one, or add the room to test/rooms.ts with a reason`;
  if (!from.startsWith(".")) {
    if (room.packages?.includes(from)) return null;
    return `${place}: ${name} uses ${room.packages?.join(", ") ?? "no package"}; ${room.instead}`;
  }
  const target = targetOf(file, from);
  if (!files.includes(target)) return `${place}: there is no src/${target}`;
  const other = roomOf(target);
  if (other === name || room.imports.includes(other)) return null;
  if (room.types?.includes(other))
    return typeOnly ? null : `${place}: ${name} may import types of ${other}, no values; ${room.instead}`;
  return `${place}: ${name} may import ${room.imports.join(", ") || "no other room"}; ${room.instead}`;
}

/** One cycle of imports as a list of files, or null. Types count: they bind two files as firmly as values do. */
function cycle(edges: ReadonlyMap<string, readonly string[]>): string[] | null {
  const done = new Set<string>();
  const path: string[] = [];
  const visit = (file: string): string[] | null => {
    if (path.includes(file)) return [...path.slice(path.indexOf(file)), file];
    if (done.has(file)) return null;
    path.push(file);
    for (const next of edges.get(file) ?? []) {
      const found = visit(next);
      if (found !== null) return found;
    }
    path.pop();
    done.add(file);
    return null;
  };
  for (const file of edges.keys()) {
    const found = visit(file);
    if (found !== null) return found;
  }
  return null;
}

describe("the rooms of src", () => {
  it("import what the table allows, and nothing else", () => {
    const faults = files.flatMap((file) =>
      (importsBy.get(file) ?? []).map((one) => fault(file, one)).filter((one) => one !== null),
    );
    expect(faults, faults.join("\n")).toEqual([]);
  });

  it("have no import cycle", () => {
    const edges = new Map(
      files.map((file) => [
        file,
        (importsBy.get(file) ?? []).filter(({ from }) => from.startsWith(".")).map(({ from }) => targetOf(file, from)),
      ]),
    );
    const found = cycle(edges);
    expect(
      found,
      `cycle: ${found?.join(" -> ")}; move what both need into a file of its own, or hand it over as an argument`,
    ).toBe(null);
  });

  it("only files, the version of base, the vector kernel for its code, and the build touch the disk", () => {
    const touching = files.filter((file) =>
      (importsBy.get(file) ?? []).some(({ from }) => /^(node:)?(fs|fs\/promises|module)$/.test(from)),
    );
    for (const file of touching) {
      expect(
        [
          "base/version.ts",
          "kernel/load-vector.ts",
          "theory/load-lanes.ts",
          "translator/build.ts",
          "translator/sources.ts",
        ].includes(file) || roomOf(file) === "files",
        `src/${file} reaches for the disk; take a Document or return a string, and let files read and write`,
      ).toBe(true);
    }
  });

  it("hold files short enough for one idea each", () => {
    const long = files
      .map((file) => ({ file, lines: (textOf.get(file) ?? "").split("\n").length - 1 }))
      .filter(({ lines }) => lines > MOST_LINES);
    const faults = long.map(
      ({ file, lines }) =>
        `src/${file} has ${lines} lines, more than ${MOST_LINES}; look for a second idea in it and give that its own file`,
    );
    expect(faults, faults.join("\n")).toEqual([]);
  });
});

// Who may make JSON by another hand than base/canonical.ts, none of it written to a file.
const OTHER_JSON: Readonly<Record<string, string>> = {
  "base/canonical.ts": "is the hand itself",
  "base/check.ts": "places as keys of a set",
  "base/random.ts": "the keys of a stream, on which every result depends",
  "base/shapes.ts": "known keys inside a message of zod's",
  "compare/changes.ts": "compares two values",
};

describe("JSON", () => {
  it("is written by one hand: keys sorted, so that the same value has the same bytes", () => {
    const others = files.filter((file) =>
      /\bJSON\s*\.\s*stringify|\bstringify\b.*=\s*JSON/.test(textOf.get(file) ?? ""),
    );
    const strangers = others.filter((file) => !(file in OTHER_JSON));
    expect(strangers, `${strangers.join(", ")}: take canonicalJson or lineJson of base/canonical.ts`).toEqual([]);
    expect(Object.keys(OTHER_JSON).filter((file) => !others.includes(file))).toEqual([]);
  });
});

describe("the test of the rooms itself", () => {
  it("finds every way to import", () => {
    const text = `import a from "./a.js"; import { type B } from "./b.js"; import type { C } from "./c.js"; import { type D, e } from "./d.js";
      export { f } from "./f.js"; export type { G } from "./g.js"; export * from "./h.js"; import "./i.js";
      const j = () => import("./j.js"); type K = import("./k.js").K; // import "./comment.js"
      const text = 'import "./text.js"';`;
    expect(importsOf("x.ts", text)).toEqual(
      ["./a.js", "./b.js:", "./c.js:", "./d.js", "./f.js", "./g.js:", "./h.js", "./i.js", "./j.js", "./k.js:"].map(
        (one) => ({
          from: one.replace(":", ""),
          typeOnly: one.endsWith(":"),
          ...(one === "./j.js" ? { onDemand: true } : {}),
        }),
      ),
    );
  });

  it("says what to do instead", () => {
    const value = (from: string) => ({ from, typeOnly: false });
    expect(fault("report/csv.ts", value("../run/pool.js"))).toMatch(
      /^src\/report\/csv.ts imports \.\.\/run\/pool\.js: report may import base, map, compare, words, charts, page-data; a report reads map\.json alone/,
    );
    expect(fault("kernel/new.ts", value("../plan/plan.js"))).toMatch(
      /kernel may import types of plan, no values; .*resolve this in plan/,
    );
    expect(fault("kernel/new.ts", { from: "../plan/plan.js", typeOnly: true })).toBe(null);
    expect(fault("base/units.ts", value("../sweep/sweep.js"))).toMatch(/base may import no other room/);
    expect(fault("map/axis.ts", value("vega"))).toMatch(/map uses zod; a map asks/);
    expect(fault("response/stop.ts", value("node:fs"))).toMatch(/response uses no package/);
    expect(fault("util/text.ts", value("../base/units.js"))).toMatch(/is no room/);
    expect(fault("map/axis.ts", value("./nowhere.js"))).toMatch(/there is no src\/map\/nowhere\.ts/);
    expect(fault("map/axis.ts", value("./field.js"))).toBe(null);
  });

  it("finds a cycle, and only a cycle", () => {
    const edges = (pairs: Record<string, string[]>) => new Map(Object.entries(pairs));
    expect(cycle(edges({ a: ["b", "c"], b: ["d"], c: ["d"], d: [] }))).toBe(null);
    expect(cycle(edges({ a: ["b"], b: ["c"], c: ["d"], d: ["b"] }))).toEqual(["b", "c", "d", "b"]);
    expect(cycle(edges({ a: ["a"] }))).toEqual(["a", "a"]);
  });
});
