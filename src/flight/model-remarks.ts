// Remarks on a log that only its model can make: axes, signs and units by how the craft answers, rotor speeds by what they can be.
import { craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { hoverTrim } from "../airframe/trim.js";
import { at } from "../base/at.js";
import { figures } from "../base/units.js";
import { type AxisAnswer, axisSigns } from "./axis-signs.js";
import type { LogFacts } from "./facts.js";
import type { FlightLog, Remark } from "./log.js";

/** A model may be off by this factor; deg/s and rad/s differ by 57, so half of that on a logarithmic scale. */
const OFF = 7.5;
/** A rotor's middle speed may be off hover's by this factor; rpm and rad/s differ by 9.5, rpm and Hz by 60. */
const OFF_SPEED = 3;

export function modelRemarks(facts: LogFacts, log: FlightLog): Remark[] {
  return [
    ...axisSigns(log, facts.airframe).flatMap((answer) => axisRemarks(facts, answer)),
    ...speedRemarks(facts, log),
  ];
}

function axisRemarks({ file, declaration }: LogFacts, { axis, answers, sign, strength }: AxisAnswer): Remark[] {
  const column = declaration.rate[axis];
  if (column === null) return [];
  const put = (text: string): Remark => ({ file, row: null, column: column.name, text });
  if (answers !== axis) {
    const way = sign < 0 ? ", the other way round" : "";
    return [
      put(`called ${axis}, but answers ${answers}${way}: are the axes swapped, or the rotors of the motor columns?`),
    ];
  }
  const signs =
    sign > 0
      ? []
      : [
          put(
            `answers ${axis} the other way: ${column.scale < 0 ? "is its `sign: -1` one too many" : "is `sign: -1` missing"}?`,
          ),
        ];
  if (axis === "yaw" || (strength < OFF && strength > 1 / OFF)) return signs;
  const [other, fits] = column.unit === "rad/s" ? ["deg/s", strength > 1] : ["rad/s", strength < 1];
  const hint = fits ? `is it in ${other}?` : "are its scale and the model right?";
  return [
    ...signs,
    put(`answers ${figures(strength)} times as strongly as the model says, taken as ${column.unit}: ${hint}`),
  ];
}

function speedRemarks({ file, declaration, airframe }: LogFacts, { rotorSpeed }: FlightLog): Remark[] {
  const hover = hoverTrim(craftUnder(airframe, STANDARD_DAY));
  if (hover === null) return [];
  return declaration.rotorSpeed.flatMap(({ name, rotor }): Remark[] => {
    const sorted = (rotorSpeed[rotor] ?? new Float64Array(0)).filter((value) => value > 0).sort();
    if (sorted.length === 0) return [];
    const ratio = at(sorted, sorted.length >> 1) / at(hover.speeds, rotor);
    if (ratio < OFF_SPEED && ratio > 1 / OFF_SPEED) return [];
    const text = `its middle is ${figures(ratio)} times the model's speed in hover: are unit, pole_pairs and divide_by right?`;
    return [{ file, row: null, column: name, text }];
  });
}
