// The first flight of a craft, before any step of the ladder: what to check on the bench, propellers off, and in a low hover.
// Common practice, no source; which motors speed up follows from the model.
import type { FieldFacts, MotorPlan } from "../map/field-facts.js";
import type { StabilityMap } from "../map/format.js";
import { hoverThrottleWords } from "./pack-words.js";

export const BENCH_TITLE = "On the bench, every propeller off";
export const HOVER_TITLE = "First hover, gains of step 1";
/** Why this comes first. */
export const FIRST_FLIGHT_LEAD = "A motor or a stick the wrong way round flips a craft at once, whatever its gains.";
export const ONLY_THEN = "Any doubt: pack off, find out why. Only then step 1.";

/** One line per box on the bench. */
export function benchChecks({ motors }: FieldFacts): string[] {
  return [
    motors === null
      ? "each motor alone: in its place and turning its way"
      : "each motor alone: in its place and turning as drawn",
    motors === null ? "sticks: the side that must rise speeds up" : stickWords(motors),
    motors === null ? "tilted by hand: the side that goes down speeds up" : tiltWords(motors),
    "transmitter off: the motors stop, or do as you set",
    "disarm at part throttle: every motor stops at once",
  ];
}

/** One line per box of the first hover. `condition`: the pack of the climb. */
export function hoverChecks(map: StabilityMap, facts: FieldFacts): string[] {
  const condition = map.ladder?.steps[0]?.condition ?? "";
  const throttle = hoverThrottleWords(facts, condition);
  const expected = throttle === null ? "" : `, throttle near ${throttle}: far off, the model is not this craft`;
  return [
    `half a minute one to two metres up${expected}`,
    "land, disarm, feel the motors: all alike, none hot",
    "gentle rolls and pitches, 20\u00b0 each way: it follows and rests",
    "a throttle pulse, up and back: it rises straight, no swing stays",
  ];
}

const stickWords = ({ speedUp }: MotorPlan): string =>
  `stick right: motors ${numbers(speedUp["roll right"])} speed up; forward: ${numbers(speedUp["nose down"])}; yaw right: ${numbers(speedUp["yaw right"])}`;

/** The loop works against the hand: the motors speed up that would slow down for such a stick. */
const tiltWords = ({ slowDown }: MotorPlan): string =>
  `turned by hand, right side down: ${numbers(slowDown["roll right"])} speed up; nose down: ${numbers(slowDown["nose down"])}`;

/** "1, 4". */
const numbers = (motors: readonly number[]): string => (motors.length === 0 ? "none" : motors.join(", "));
