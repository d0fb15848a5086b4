// Which names file systems take for one: case folding and normalisation as Unicode defines them (String.normalize and
// toLowerCase follow the standard, chapters 3.11 and 5.18); device names from Microsoft's "Naming Files, Paths, and
// Namespaces" (from memory).
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { craftFolder, pairFolder, sweepFolder } from "../../src/base/folder-name.js";

/** A name on a file system that ignores case and Unicode normalisation. */
const folded = (folder: string): string => folder.normalize("NFKD").toUpperCase().toLowerCase().normalize("NFC");

const craft = (name: string, version = "r1") => ({ name, version });

describe("a folder", () => {
  it("is the name itself where nothing is lost, as it always was", () => {
    expect(sweepFolder("first-tune")).toBe("first-tune");
    expect(craftFolder(craft("Sandpiper"))).toBe("sandpiper-r1");
    expect(pairFolder(craft("Sandpiper"), craft("Sandpiper", "r2"))).toBe("sandpiper-r1-to-sandpiper-r2");
  });

  it("keeps the letters of every script, with a digest", () => {
    expect(craftFolder(craft("雀"))).toMatch(/^雀-r1-[0-9a-f]{8}$/);
    expect(craftFolder(craft("Möwe"))).toMatch(/^möwe-r1-[0-9a-f]{8}$/);
    expect(craftFolder(craft("𝔄"))).toMatch(/^unnamed-r1-[0-9a-f]{8}$/);
  });

  it.each(["con", "nul", "com1", "LPT9"])("is no device where a sweep is called %s", (name) => {
    expect(sweepFolder(name)).toMatch(/^\w+-[0-9a-f]{8}$/);
  });

  it.each([
    [craft("雀"), craft("鷹")],
    [craft("Mark II"), craft("Mark-II")],
    [craft("Mark-ii"), craft("Mark II")],
    [craft("Möwe"), craft("M we")],
    [craft("Mo\u0308we"), craft("Möwe")],
    [craft("Sandpiper"), craft("sandpiper")],
    [craft("Sandpiper"), craft("SANDPIPER")],
    [craft("Sandpiper", "r1"), craft("Sandpiper", "R1")],
    [craft("Straße"), craft("Strasse")],
    [craft("A-b", "c"), craft("A", "b-c")],
    [craft("𝔄"), craft("𝔅")],
  ])("is another for another craft: %j, %j", (one, other) => {
    expect(folded(craftFolder(one))).not.toBe(folded(craftFolder(other)));
  });

  it("of a pair is another for another pair, wherever one name ends", () => {
    const one = pairFolder(craft("A"), craft("B-to-c", "r2"));
    expect(pairFolder(craft("A-r1-to", "b"), craft("C", "r2"))).not.toBe(one);
  });

  it("is no digest that somebody chose as a name", () => {
    const lossy = sweepFolder("Quick look");
    expect(sweepFolder(lossy)).not.toBe(lossy);
    const [, name, digest] = /^(.*)-([0-9a-f]{8})$/.exec(craftFolder(craft("Mark II"))) ?? [];
    expect(craftFolder(craft(`${name?.[0]?.toUpperCase()}${name?.slice(1)}`, digest))).not.toBe(`${name}-${digest}`);
  });
});

const LETTERS = [..."aAbBrR1-_ .ßéÉ雀鷹İıΣς", "e\u0301", "𝔄"];
const named = fc.array(fc.constantFrom(...LETTERS), { minLength: 1, maxLength: 6 }).map((letters) => letters.join(""));
const crafts = fc.record({ name: named, version: named });

describe("any two names", () => {
  it("differ as sweeps", () => {
    fc.assert(
      fc.property(named, named, (one, other) => {
        fc.pre(one !== other);
        expect(folded(sweepFolder(one))).not.toBe(folded(sweepFolder(other)));
      }),
      { numRuns: 2000 },
    );
  });

  it("differ as crafts, and as pairs", () => {
    fc.assert(
      fc.property(crafts, crafts, crafts, (one, other, third) => {
        fc.pre(one.name !== other.name || one.version !== other.version);
        expect(folded(craftFolder(one))).not.toBe(folded(craftFolder(other)));
        expect(folded(pairFolder(one, third))).not.toBe(folded(pairFolder(other, third)));
      }),
      { numRuns: 2000 },
    );
  });

  it("make folders every file system takes: no longer than 255 bytes, no dot or space at the end", () => {
    const long = { name: "鷹".repeat(40), version: "𝔄é".repeat(20) };
    expect(Buffer.byteLength(`.${pairFolder(long, long)}.json.0123456789ab.part`)).toBeLessThanOrEqual(255);
    fc.assert(
      fc.property(crafts, (one) => {
        expect(craftFolder(one)).toMatch(/^[^\s."*/:<>?\\|A-Z]+$/);
      }),
    );
  });
});
