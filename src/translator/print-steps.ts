// Steps and segments, a line for each.
import type { Place } from "./places.js";
import { printCode } from "./print-wasm.js";
import { liveOut, type Part } from "./segments.js";
import type { LaneCode, Step } from "./steps.js";

export const printSteps = (steps: readonly Step[]): string => lines(steps).join("\n");

/** What is live between segments, then every segment's steps. */
export function printSegments(parts: readonly Part[]): string {
  const live = [...liveOut(parts)].map(({ name }) => name);
  return [`in memory between segments: ${live.join(", ") || "nothing"}`, ...partLines(parts)].join("\n");
}

const partLines = (parts: readonly Part[]): string[] =>
  parts.flatMap((part) =>
    part.form === "segment"
      ? ["segment", ...indented(lines(part.steps))]
      : [`${repeat(part.loop)}, segment by segment`, ...indented(partLines(part.parts))],
  );

const indented = (text: readonly string[]): string[] => text.map((line) => `  ${line}`);

const lines = (steps: readonly Step[]): string[] =>
  steps.flatMap((step) => (step.form === "repeat" ? [repeat(step), ...indented(lines(step.body))] : [line(step)]));

const repeat = ({ counter, from, below }: Step & { form: "repeat" }): string =>
  `repeat local ${counter} from ${place(from)} below ${place(below)}`;

function line(step: Exclude<Step, { form: "repeat" }>): string {
  switch (step.form) {
    case "set":
      return `${step.slot.name} = ${value(step.value)}`;
    case "write":
      return `${step.array}[${place(step.place)}] = ${value(step.value)}`;
    case "hoist":
      return `once for all lanes: ${step.hoisted.name} = ${value(step.value)}`;
    case "count":
      return `local ${step.counter} = ${inline(step.value)}`;
    case "pause":
      return `pause, a round of ${step.name}`;
  }
}

const inline = (code: Place["rest"]): string => `(${printCode(code ?? []).join("; ")})`;

function place({ constant, rest }: Place): string {
  if (rest === null) return String(constant);
  return constant === 0 ? inline(rest) : `${constant} + ${inline(rest)}`;
}

function value(node: LaneCode): string {
  switch (node.form) {
    case "constant":
      return Object.is(node.value, -0) ? "-0" : String(node.value);
    case "slot":
      return node.slot.name;
    case "hoisted":
      return node.hoisted.name;
    case "shared":
      return `${node.array}[${place(node.place)}]`;
    case "state":
      return `state[${place(node.place)}]`;
    case "sample":
      return `trace[${place(node.place)}]`;
    case "negative":
      return `(-${value(node.of)})`;
    case "arithmetic":
      return `(${value(node.left)} ${node.operator} ${value(node.right)})`;
    case "extreme":
      return `${node.operator === "<" ? "min" : "max"}(${value(node.left)}, ${value(node.right)})`;
    case "choice":
      return `(${value(node.left)} ${node.operator} ${value(node.right)} ? ${value(node.met)} : ${value(node.otherwise)})`;
  }
}
