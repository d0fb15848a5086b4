import { describe, expect, it } from "vitest";
import type { StabilityMap } from "../../src/map/format.js";
import type { LadderStep } from "../../src/map/ladder-format.js";
import { manoeuvreWords, stepWords } from "../../src/words/step-words.js";
import { climbing } from "../report/ladder-fixture.js";

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

  it("say what an eye can see change, and of which axis", () => {
    const changes = steps.map((_, at) => stepWords(map, at).change);
    expect(changes[0]).toBe(null);
    expect(changes[4]).toBe("After the stop it swings back less far and less often than at step 4.");
    expect(changes[8]).toBe("It looks as it did at step 7.");
    expect(changes[9]).toBe(null); // the throttle is met for the first time
  });

  const landing = (rebounds: number | null) => {
    const limited = { ...map, limits: { ...map.limits, rebounds } };
    return steps.map((_, at) => stepWords(limited, at).land.replace("it swings back more than ", "")).slice(0, 8);
  };

  it("say when to land: two swings more than predicted", () => {
    const counts = [
      "5 times",
      "four times",
      "four times",
      "four times",
      "three times",
      "three times",
      "twice",
      "twice",
    ];
    expect(landing(null)).toEqual(counts);
    expect(landing(9)).toEqual(counts);
  });

  it("land no later than the sweep calls it ringing, and never for what was predicted", () => {
    expect(landing(2)).toEqual(["three times", "twice", "twice", "twice", "twice", "twice", "twice", "twice"]);
    expect(landing(0).slice(-3)).toEqual(["once", "it swings back at all", "it swings back at all"]);
  });

  it("name the axis they speak of where the other one does better", () => {
    const [first] = steps;
    const { roll, pitch } = (first as LadderStep).axes;
    const look = (counts: readonly [number, number]) => {
      const axes = {
        roll: { ...roll, measures: { rebounds: counts[0] } },
        pitch: { ...pitch, measures: { rebounds: counts[1] } },
      };
      const step = { ...first, axes } as LadderStep;
      return stepWords({ ...map, ladder: { manoeuvres: map.ladder?.manoeuvres ?? [], steps: [step] } }, 0).look;
    };
    expect(look([0, 1])).toBe("It swings back once after the stop (pitch).");
    expect(look([2, 1])).toBe("It swings back twice after the stop (roll).");
    expect(look([1, 1])).toBe("It swings back once after the stop.");
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
      "hard stop from a roll at 500 °/s; sharp turn into prop wash at 200 °/s; hard stop from a flip at 500 °/s",
    );
  });

  it("say how much of a gentler manoeuvre is asked for, and how fast it sinks", () => {
    const manoeuvres = (map.ladder?.manoeuvres ?? []).map((one) => ({ ...one, rate: 0, share: 0.4, descent: 3.1962 }));
    const gentle = { ...map, ladder: { manoeuvres, steps } };
    expect(manoeuvreWords(gentle, steps[9] as LadderStep).replaceAll("\u00a0", " ")).toBe(
      "punch-out with 40 % of its throttle moves, sinking at 3.2 m/s",
    );
  });
});
