// Keys as messages spell them: what pathText writes is read back, and what is no key is not.
import { describe, expect, it } from "vitest";
import { keyAndValue, stepsOf } from "../../src/base/key-path.js";
import { pathText } from "../../src/base/problem.js";

describe("a key's steps", () => {
  it.each([
    [["pack", "cells"]],
    [["frame", "parts", 6, "at", 0]],
    [["controller", "gains", "roll", "p"]],
    [["rotors", 12, "spin"]],
  ])("are those it was written from: %j", (path) => expect(stepsOf(pathText(path))).toEqual(path));

  it("may name a list's member, whatever is in the name but brackets", () =>
    expect(stepsOf("frame.parts[battery, 4.2 V = full].mass")).toEqual([
      "frame",
      "parts",
      "battery, 4.2 V = full",
      "mass",
    ]));

  it.each(["", ".", "..", "a..b", "a.", "[0]", "a[", "a]", "a[]", "a b[", "a.[0]", " a"])("%j is no key", (text) =>
    expect(stepsOf(text)).toBeNull(),
  );
});

describe("key=value", () => {
  it.each([
    ["pack.cells=6", ["pack.cells", "6"]],
    [" pack.cells = 6 ", ["pack.cells", "6"]],
    ["sensing.notch=", ["sensing.notch", ""]],
    ["frame.parts[a=b].mass=1 g", ["frame.parts[a=b].mass", "1 g"]],
    ["title=a=b", ["title", "a=b"]],
  ])("%j", (text, parts) => expect(keyAndValue(text)).toEqual(parts));

  it.each(["pack.cells", "", "a[b=c"])("%j has none", (text) => expect(keyAndValue(text)).toBeNull());
});
