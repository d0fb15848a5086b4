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

  test("know every form of a grid: left to the plan, one for both axes, one for each", () => {
    const [, text] = editorSchemas()[1] ?? ["", "{}"];
    const [auto, perAxis, lines] = JSON.parse(text).properties.grid.anyOf;
    for (const written of ["auto", "auto 24", "auto 24 x 20", "auto 24x20"])
      expect(new RegExp(auto.pattern).test(written)).toBe(true);
    expect(new RegExp(auto.pattern).test("auto 24 by 20")).toBe(false);
    expect([perAxis.required, lines.required]).toEqual([
      ["roll", "pitch"],
      ["p", "d"],
    ]);
    expect(perAxis.properties.roll.anyOf[0].pattern).toBe(auto.pattern);
  });

  test("know the units: the pattern of a gain takes the gain and no other quantity", () => {
    const [, text] = editorSchemas()[1] ?? ["", "{}"];
    const { p, d: dGain } = JSON.parse(text).properties.pinned.properties.roll.properties;
    const pattern = new RegExp(p.pattern);
    expect(pattern.test("30 %/(100 deg/s)")).toBe(true);
    expect(pattern.test("30 % / (100 deg/s)")).toBe(true);
    expect(pattern.test("4 %/(1000 deg/s^2)")).toBe(false);
    expect(pattern.test("30")).toBe(false);
    const d = new RegExp(dGain.pattern);
    for (const spelt of ["4 %/(1000 deg/s^2)", "4 %/(1000 deg/s2)"]) expect(d.test(spelt)).toBe(true);
  });
});
