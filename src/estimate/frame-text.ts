// The frame and the rotors of a model as its file holds them.
import { inUnitOf } from "../base/units.js";
import type { Answers } from "./answers.js";
import { type FrameInput, type FramePart, frameParts, heightsOf, type Length } from "./frame.js";
import { rotorPlaces } from "./layout.js";
import type { Numbers } from "./numbers.js";
import { textOf } from "./written.js";

/** What the frame is made from. */
export const frameInput = (answers: Answers, { motor, propellerMass }: Numbers): FrameInput => ({
  places: rotorPlaces(answers.layout, answers.distances),
  weight: answers.weight,
  packMass: answers.pack.weight,
  propellerMass: propellerMass.value,
  propellerDiameter: answers.propeller.diameter,
  motor: { mass: motor.mass.value, diameter: motor.bell.diameter, length: motor.bell.length },
  ducts: answers.ducts === "yes",
  slim: answers.layout === "quadrotor-x",
});

export function frameLines(answers: Answers, numbers: Numbers): string[] {
  const input = frameInput(answers, numbers);
  const height = textOf(heightsOf(input).rotors, "length", "mm");
  const total = textOf(Number((input.weight + input.packMass).toPrecision(9)), "mass", "g");
  return [
    "# x forward, y to the left, z up; the origin is the middle of the bottom plate.",
    `frame: # the parts weigh ${total} together, as weighed`,
    "  parts:",
    ...frameParts(input).flatMap((part) => [`    # ${remark(part, answers, numbers)}`, `    - {${partText(part)}}`]),
    "",
    "rotors: # by ruler",
    ...input.places.map(
      ({ x, y, spin, name }) =>
        `  - {at: [${textOf(x, "length", "mm")}, ${textOf(y, "length", "mm")}, ${height}], spin: ${spin}} # ${name}`,
    ),
  ];
}

function partText({ name, shape, mass, spread, size, diameter, length, at }: FramePart): string {
  const slack = spread === undefined ? "" : ` ± ${Number(inUnitOf(spread, "mass", "g").toPrecision(2))} g`;
  const start = [
    `name: ${name.includes(",") ? `"${name}"` : name}`,
    `shape: ${shape}`,
    `mass: ${textOf(mass, "mass", "g")}${slack}`,
  ];
  const sizes = [
    ...(size === undefined ? [] : [`size: ${lengths(size)}`]),
    ...(diameter === undefined ? [] : [`diameter: ${lengthText(diameter)}`]),
    ...(length === undefined ? [] : [`length: ${lengthText(length)}`]),
  ];
  const place = at === undefined ? "rotors" : lengths(at);
  return [
    ...start,
    ...sizes,
    ...(shape === "rod" ? ["from: [0 mm, 0 mm, 0 mm]", `to: ${place}`] : [`at: ${place}`]),
  ].join(", ");
}

const lengths = (three: readonly Length[]): string => `[${three.map(lengthText).join(", ")}]`;

function lengthText({ value, spread }: Length): string {
  const written = `${Number((1000 * value).toFixed(1))} mm`;
  return spread === 0 ? written : `${written} ± ${Math.max(1, Math.round(1000 * spread))} mm`;
}

function remark({ name, source }: FramePart, { motor }: Answers, { propellerMass }: Numbers): string {
  if (name === "propellers") return propellerMass.source;
  if (name !== "motors") return source;
  const weighed = motor.weight === undefined ? "weight by the bell's size" : "weighed";
  return `${weighed}; ${motor.bell === undefined ? "size by weight" : "size by ruler"}`;
}
