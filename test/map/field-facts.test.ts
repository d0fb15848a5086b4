// What a pilot checks at the field, of the shipped crafts: against the comments in their files and against flight mechanics.
import { describe, expect, it } from "vitest";
import { motorPlanSvg } from "../../src/charts/motor-plan.js";
import { readAirframe } from "../../src/flow/read.js";
import { fieldFacts } from "../../src/map/field-facts.js";
import type { StabilityMap } from "../../src/map/format.js";
import { benchChecks } from "../../src/words/first-flight-words.js";
import { packWords } from "../../src/words/pack-words.js";
import { smallMap } from "../fixtures/report-map.js";

const plain = (text: string) => text.replaceAll("\u00a0", " ");

async function factsOf(file: string) {
  const { map } = await smallMap();
  return fieldFacts({ ...map, model: { format: "gainscape.resolved-model/1", ...readAirframe(file).value } });
}

describe("motors of a craft", () => {
  // sandpiper-r1.yaml: 1 front right ccw, 2 front left cw, 3 rear left ccw, 4 rear right cw.
  it("lie and turn as the file says", async () => {
    const { motors } = await factsOf("models/sandpiper-r1.yaml");
    const sides = motors?.rotors.map(({ right, forward }) => [right > 0, forward > 0]);
    expect(sides).toEqual([
      [true, true],
      [false, true],
      [false, false],
      [true, false],
    ]);
    expect(motors?.rotors.map(({ clockwise }) => clockwise)).toEqual([false, true, false, true]);
  });

  // Thrust on the left rolls right, thrust behind puts the nose down; a propeller's torque turns the craft against its own
  // way, so those that turn counter-clockwise yaw it to the right (any textbook of multirotors).
  it("speed up where a stick asks for it", async () => {
    const { motors } = await factsOf("models/sandpiper-r1.yaml");
    expect(motors?.speedUp).toEqual({ "roll right": [2, 3], "nose down": [3, 4], "yaw right": [1, 3] });
    expect(motors?.slowDown).toEqual({ "roll right": [1, 4], "nose down": [1, 2], "yaw right": [2, 4] });
  });

  it.each(["curlew-r1", "dunlin-r1", "turnstone-r1"])(
    "of %s are split by every stick, and drawn within the picture",
    async (name) => {
      const { motors } = await factsOf(`models/${name}.yaml`);
      if (motors === null) throw new Error("no motors");
      for (const move of ["roll right", "nose down", "yaw right"] as const) {
        expect(motors.speedUp[move].length).toBeGreaterThan(0);
        expect(motors.speedUp[move].filter((no) => motors.slowDown[move].includes(no))).toEqual([]);
      }
      const left = motors.rotors.flatMap(({ right }, k) => (right < -0.2 ? [k + 1] : []));
      expect(motors.speedUp["roll right"]).toEqual(left);
      const circles = [...motorPlanSvg(motors).matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g)];
      expect(circles).toHaveLength(motors.rotors.length);
      for (const [, x, y, r] of circles)
        for (const place of [x, y]) {
          expect(Number(place) - Number(r)).toBeGreaterThanOrEqual(0);
          expect(Number(place) + Number(r)).toBeLessThanOrEqual(120);
        }
    },
  );

  it("are not drawn where a map lacks a part of its model, and the checks say so in general words", async () => {
    const { map } = await smallMap();
    const facts = fieldFacts({ ...map, model: { name: "Sandpiper", version: "r1" } });
    expect(facts.motors).toBe(null);
    expect(benchChecks(facts).join()).not.toMatch(/drawn|null|undefined|\d/);
  });
});

describe("a pack", () => {
  it("is known by what it reads in hover", async () => {
    const { map } = await smallMap();
    const facts = fieldFacts(map);
    const { fresh, tired } = {
      fresh: map.hover["fresh pack"]?.voltage ?? 0,
      tired: map.hover["tired pack"]?.voltage ?? 0,
    };
    expect(plain(packWords(facts, "fresh pack"))).toBe(
      `Fresh pack: charged full for every step, about ${fresh.toFixed(1)} V in hover (${(fresh / 4).toFixed(2)} V a cell).`,
    );
    expect(plain(packWords(facts, "tired pack", "fresh pack"))).toBe(
      `Tired pack: one that has sunk from ${fresh.toFixed(1)} V to about ${tired.toFixed(1)} V in hover (${(tired / 4).toFixed(2)} V a cell); no lower.`,
    );
    // 4 cells of 4.2 V less what the pack's 18 mohm take of the current that hovers.
    expect(fresh).toBeLessThan(16.8);
    expect(fresh).toBeGreaterThan(16.4);
  });

  it("that is the same in the climb and in the checks is not called sunk", async () => {
    const { map } = await smallMap();
    expect(packWords(fieldFacts(map), "fresh pack", "fresh pack")).toContain("charged full");
  });

  it("of a map that lacks its plan's charges is named by its voltage alone", async () => {
    const { map } = await smallMap();
    const older: StabilityMap = { ...map, plan: { digest: "", variants: [], sweep: {} }, model: null };
    expect(plain(packWords(fieldFacts(older), "fresh pack"))).toBe("Fresh pack: about 16.7 V in hover.");
  });
});
