import { describe, expect, it } from "vitest";
import type { StabilityMap } from "../../src/map/format.js";
import type { LadderStep } from "../../src/map/ladder-format.js";
import { manoeuvreWords, stepWords } from "../../src/report/ladder/step-words.js";
import { climbing } from "./ladder-fixture.js";

const map = { ...climbing(), limits: { ...climbing().limits, wobbleAngle: 2 } };
const steps = map.ladder?.steps ?? [];

describe("the words of a step", () => {
  it("say what each step is", () => {
    expect(steps.map((_, at) => stepWords(map, at).title)).toEqual([
      "Low P, low D",
      "More P",
      "More P",
      "More P",
      "More D",
      "More D",
      "The starting tune",
      "Stops",
      "Prop wash",
      "Throttle",
    ]);
  });

  it("say what the eye will see, from the worse of the two axes", () => {
    const look = (at: number) => stepWords(map, at).look;
    expect(look(0)).toBe(
      "It swings back three times after the stop; in disturbed air it wallows, slowly enough to count.",
    );
    expect(look(3)).toBe(
      "It swings back twice after the stop; in disturbed air it hardly leaves its course, as a quick shiver.",
    );
    expect(look(6)).toBe("It stops dead; in disturbed air it hardly leaves its course, as a quick shiver.");
    expect(look(9)).toBe("It keeps its attitude while the throttle moves, give or take a little.");
  });

  it("say when to land: two swings more than predicted", () => {
    expect(steps.map((_, at) => stepWords(map, at).land).slice(0, 8)).toEqual(
      ["5 times", "four times", "four times", "four times", "three times", "three times", "twice", "twice"].map(
        (count) => `it swings back more than ${count}`,
      ),
    );
  });

  it("hear the motors roughen by thirds of the way to the heating limit", () => {
    const heated = (heat: number): StabilityMap => {
      const [first] = steps;
      const roll = { ...(first as LadderStep).axes.roll, measures: { heat } };
      const step = { ...first, axes: { roll } } as LadderStep;
      return {
        ...map,
        limits: { ...map.limits, heat: 1.6 },
        ladder: { manoeuvres: map.ladder?.manoeuvres ?? [], steps: [step] },
      };
    };
    const heard = (heat: number) => stepWords(heated(heat), 0).listen;
    expect(heard(1.19)).toBe("An even note; motors no warmer than usual.");
    expect(heard(1.21)).toBe("An even note; motors a little warmer than usual.");
    expect(heard(1.39)).toBe("An even note; motors a little warmer than usual.");
    expect(heard(1.41)).toBe("A slightly rough note; motors warm.");
  });

  it("name each manoeuvre once", () => {
    expect(manoeuvreWords(map, steps[0] as LadderStep).replaceAll("\u00a0", " ")).toBe(
      "hard stop from a roll at 500 °/s, sharp turn into prop wash at 200 °/s, hard stop from a flip at 500 °/s",
    );
  });
});
