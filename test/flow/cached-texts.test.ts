import { describe, expect, it } from "vitest";
import { sha256 } from "../../src/base/digest.js";
import { decodeTexts, encodeTexts } from "../../src/flow/cached-texts.js";

const KEY = "0123456789abcdef".repeat(4);
const TEXTS = { map: "ä 🛸\n", page: "", points: "a,b\n1,2\n" };

const sealed = (open: Uint8Array) => Buffer.concat([open, sha256(open)]);

/** A sealed file with another line of names, as anybody who knows the format could make it. */
const named = (line: string) =>
  sealed(Buffer.concat([Buffer.from("gainscape.texts/1\n"), Buffer.from(KEY, "hex"), Buffer.from(`${line}\nabc`)]));

describe("texts as bytes", () => {
  it("come back as they were", () => {
    expect(decodeTexts(KEY, encodeTexts(KEY, TEXTS))).toEqual(TEXTS);
    expect(decodeTexts(KEY, named('[["a",1],["b",2]]'))).toEqual({ a: "a", b: "bc" });
  });

  it("are refused with any one bit flipped, cut short anywhere, or longer", () => {
    const bytes = Uint8Array.from(encodeTexts(KEY, TEXTS));
    for (let at = 0; at < bytes.length; at++) {
      const flipped = bytes.slice();
      flipped[at] ^= 1 << (at % 8);
      expect(typeof decodeTexts(KEY, flipped), `byte ${at}`).toBe("string");
      expect(typeof decodeTexts(KEY, bytes.subarray(0, at)), `length ${at}`).toBe("string");
    }
    expect(decodeTexts(KEY, Buffer.concat([bytes, Uint8Array.of(0)]))).toMatch(/changed/);
  });

  it("are refused under another key", () => {
    expect(decodeTexts("0".repeat(64), encodeTexts(KEY, TEXTS))).toBe("holds other files than its name says");
  });

  it.each(["", "{", "[]", '[["a",4]]', '[["a",2]]', '[["a",-1],["b",4]]', '[["a",1e9]]', '[["a"]]', '{"a":3}'])(
    "are refused where the line of names is %s, sealed or not",
    (line) => {
      expect(decodeTexts(KEY, named(line))).toBe("holds what no run writes");
    },
  );

  it("a name that means something to the language is a name", () => {
    const texts = decodeTexts(KEY, named('[["__proto__",3]]'));
    expect(Object.entries(texts)).toEqual([["__proto__", "abc"]]);
  });
});
