import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { editorSchemas } from "../../src/flow/editor-schemas.js";

describe("the schemas for editors", () => {
  test.each(editorSchemas())("%s is the one the formats give; the build writes it anew", (file, text) => {
    expect(readFileSync(file, "utf8")).toBe(text);
  });

  test("ask for what the formats ask for, and for no key more", () => {
    const required = editorSchemas().map(([, text]) => (JSON.parse(text) as { required: string[] }).required);
    expect(required[0]).toEqual([
      "format",
      "name",
      "version",
      "title",
      "frame",
      "rotors",
      "propeller",
      "motor",
      "pack",
      "sensing",
      "controller",
    ]);
    expect(required[1]).toEqual(["format", "name", "title", "grid", "scripts", "conditions"]);
    for (const [, text] of editorSchemas()) expect(JSON.parse(text)).toMatchObject({ additionalProperties: false });
  });

  test("know the units: the pattern of a gain takes the gain and no other quantity", () => {
    const [, text] = editorSchemas()[1] ?? ["", "{}"];
    const pattern = new RegExp(JSON.parse(text).properties.grid.properties.p.properties.from.pattern);
    expect(pattern.test("30 %/(100 deg/s)")).toBe(true);
    expect(pattern.test("30 % / (100 deg/s)")).toBe(true);
    expect(pattern.test("4 %/(1000 deg/s^2)")).toBe(false);
    expect(pattern.test("30")).toBe(false);
    const d = new RegExp(JSON.parse(text).properties.grid.properties.d.properties.from.pattern);
    for (const spelt of ["4 %/(1000 deg/s^2)", "4 %/(1000 deg/s2)"]) expect(d.test(spelt)).toBe(true);
  });
});
