// Every link from one document to another place of the checkout leads there, headings included; and what documents name exists.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, it } from "vitest";
import { markdownFiles } from "./files.js";

/** A document without what is set as code, in which nothing is a link or a heading. */
const prose = (text: string): string =>
  text.replace(/^```[\s\S]*?^```$/gm, "").replace(/`[^`\n]*`/g, (code) => "x".repeat(code.length));

/** Where relative links lead: `[text](target)`, pictures too, and `[name]: target`. */
function linksIn(text: string): string[] {
  const plain = prose(text);
  const found = [...plain.matchAll(/\]\(\s*<?([^)\s>]+)>?[^)]*\)/g), ...plain.matchAll(/^\[[^\]]+\]:\s*(\S+)/gm)];
  return found.map(([, target]) => target ?? "").filter((target) => !/^[a-z][a-z+.-]*:/i.test(target));
}

/** The anchors of a document's headings: small letters, spaces as hyphens, all else but letters, digits, _ and - dropped. */
function anchorsIn(text: string): string[] {
  const counts = new Map<string, number>();
  const unfenced = text.replace(/^```[\s\S]*?^```$/gm, "");
  return [...unfenced.matchAll(/^#{1,6}\s+(.*?)\s*#*$/gm)].map(([, heading = ""]) => {
    const words = heading
      .replace(/\[([^\]]*)\]\([^)]*\)/g, "$1")
      .replace(/[`*]/g, "")
      .toLowerCase();
    const anchor = words.replace(/[^\p{L}\p{N}_ -]/gu, "").replace(/ /g, "-");
    const times = counts.get(anchor) ?? 0;
    counts.set(anchor, times + 1);
    return times === 0 ? anchor : `${anchor}-${times}`;
  });
}

/** What is wrong with a link, or null. */
function fault(file: string, target: string, read: (file: string) => string | null): string | null {
  const [path = "", anchor] = target.split("#");
  const to = path === "" ? file : posix.join(posix.dirname(file), decodeURIComponent(path));
  const text = read(to);
  if (text === null) return `${file}: ${target} leads nowhere`;
  if (anchor === undefined || (to.endsWith(".md") && anchorsIn(text).includes(anchor))) return null;
  return `${file}: ${target}: ${to} has no heading for #${anchor}`;
}

const onDisk = (file: string): string | null =>
  existsSync(file) ? (/\.\w+$/.test(file) ? readFileSync(file, "utf8") : "") : null;

const documents = markdownFiles().map((file) => [file, readFileSync(file, "utf8")] as const);

describe("links", () => {
  it.each(documents)("%s", (file, text) => {
    const faults = linksIn(text).flatMap((target) => fault(file, target, onDisk) ?? []);
    expect(faults, faults.join("\n")).toEqual([]);
  });

  it("lead to every document: none stands apart", () => {
    const linked = new Set(
      documents.flatMap(([file, text]) =>
        linksIn(text).map((target) =>
          target.startsWith("#") ? file : posix.join(posix.dirname(file), target.split("#")[0] ?? ""),
        ),
      ),
    );
    const apart = documents.map(([file]) => file).filter((file) => file !== "README.md" && !linked.has(file));
    expect(apart.filter((file) => file !== "CHANGELOG.md")).toEqual([]);
  });
});

describe("what documents name", () => {
  const sources = ["src", "test", ".ci"].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: "utf8" }).map((file) => join(folder, file).replaceAll("\\", "/")),
  );
  // The changelog tells of what was.
  const present = documents.filter(([file]) => file !== "CHANGELOG.md");

  it.each(present)("%s: source files are there", (file, text) => {
    const named = [...text.matchAll(/`([\w.-]+(?:\/[\w.-]+)*\.(?:ts|mjs|c|py|m|sbatch|sh))`/g)].map(
      ([, name = ""]) => name,
    );
    const room = posix.dirname(file);
    const isThere = (name: string): boolean =>
      existsSync(name) || existsSync(join(room, name)) || sources.some((source) => source.endsWith(`/${name}`));
    expect([...new Set(named)].filter((name) => !isThere(name))).toEqual([]);
  });

  it.each(present)("%s: tests are there", (_, text) => {
    const named = [...text.matchAll(/`(test\/[\w/-]+)`/g)].map(([, name = ""]) => name);
    expect(named.filter((name) => !existsSync(name) && !existsSync(`${name}.test.ts`))).toEqual([]);
  });

  it.each(present)("%s: formats are those of the code", (_, text) => {
    const code = sources.filter((file) => /^src\/.*\.ts$/.test(file)).map((file) => readFileSync(file, "utf8"));
    const named = [...new Set([...text.matchAll(/gainscape\.[a-z]+\/\d+/g)].map(([format]) => format))];
    expect(named.filter((format) => !code.some((source) => source.includes(format)))).toEqual([]);
  });

  it.each(present)("%s: npm scripts are there", (_, text) => {
    const { scripts } = JSON.parse(readFileSync("package.json", "utf8"));
    const named = [...text.matchAll(/npm run ([a-z]+)/g)].map(([, name = ""]) => name);
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });
});

describe("the test of the links itself", () => {
  const texts: Readonly<Record<string, string>> = {
    "a/b.md": "# A `b`, and more\n\n## Same\n\n## Same\n\n```sh\n# no heading [x](nowhere)\n```",
    "c.md": "",
  };
  const read = (file: string) => texts[file] ?? null;

  it("sees links and pictures, and neither code nor addresses", () => {
    const text =
      '[a](b.md) ![p](c/d.png "title") [web](https://example.org) `[x](y)`\n```\n[x](z)\n```\n[r]: e.md#f\n[[g](h)]';
    expect(linksIn(text).sort()).toEqual(["b.md", "c/d.png", "e.md#f", "h"]);
  });

  it("knows headings as anchors", () => {
    expect(anchorsIn(texts["a/b.md"] ?? "")).toEqual(["a-b-and-more", "same", "same-1"]);
  });

  it("says what is wrong", () => {
    expect(fault("c.md", "a/b.md#same-1", read)).toBe(null);
    expect(fault("a/b.md", "../c.md", read)).toBe(null);
    expect(fault("a/b.md", "#same", read)).toBe(null);
    expect(fault("a/b.md", "c.md", read)).toBe("a/b.md: c.md leads nowhere");
    expect(fault("c.md", "a/b.md#none", read)).toBe("c.md: a/b.md#none: a/b.md has no heading for #none");
  });
});
