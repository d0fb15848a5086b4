// What a changed number of a model means to a loop, in a few words.
import { parameterTitle } from "../base/parameter-titles.js";
import type { WhyChange } from "../compare/why-format.js";

type Change = WhyChange["numbers"][number]["change"];
type Both = readonly [more: string, less: string];

/** What more and less of a number means to a loop. */
const EFFECTS: Readonly<Record<string, Both>> = Object.freeze({
  frame: ["slower to turn", "quicker to turn"],
  rotors: ["longer arms", "shorter arms"],
  "propeller.diameter": ["larger propellers", "smaller propellers"],
  "propeller.ct": ["more thrust per speed", "less thrust per speed"],
  "propeller.cp": ["propellers that take more torque", "propellers that take less torque"],
  "propeller.zero_thrust_advance": ["thrust that fades later in moving air", "thrust that fades sooner in moving air"],
  "propeller.inertia": ["propellers answering slower", "propellers answering faster"],
  "motor.kv": ["more speed per volt", "less speed per volt"],
  "motor.resistance": ["more resistance in the motors", "less resistance in the motors"],
  "motor.no_load_current": ["more current without load", "less current without load"],
  "motor.bell_inertia": ["motors answering slower", "motors answering faster"],
  "pack.cells": ["more cells", "fewer cells"],
  "pack.open_circuit": ["more volts per cell", "fewer volts per cell"],
  "pack.resistance": ["a pack that sags more", "a pack that sags less"],
  "sensing.low_pass": ["a slower gyro filter", "a faster gyro filter"],
  "controller.rate_derivative_filter": ["a slower filter of D", "a faster filter of D"],
  "controller.latency": ["more latency", "less latency"],
  "controller.rate": ["a faster loop", "a slower loop"],
});

/** Keys that no model file has in one place. */
const NAMES: Readonly<Record<string, string>> = Object.freeze({ frame: "mass and balance", rotors: "rotors.at" });

/** "more thrust per speed (propeller.ct)". */
export const changeWords = ({ numbers }: WhyChange): string =>
  numbers.map(({ id, change }) => numberWords(id, change)).join(" with ");

function numberWords(id: string, change: Change): string {
  const name = NAMES[id] ?? id;
  return change === "other" && name !== id ? `another ${name}` : `${effectWords(id, change)} (${name})`;
}

function effectWords(id: string, change: Change): string {
  const effect = Object.hasOwn(EFFECTS, id) ? EFFECTS[id] : undefined;
  if (effect !== undefined && change !== "other") return effect[change === "more" ? 0 : 1];
  const title = parameterTitle(id);
  if (title !== id) return `${change} ${title}`;
  return change === "other" ? "another value" : change;
}
