// The program as it was read, a line for each statement: every name and cell with its kind behind it (V varying, U uniform,
// I index).
import type { Expression, Kind, Program, Statement, Target, Test } from "./tree.js";

const LETTER: Readonly<Record<Kind, string>> = { Varying: "V", Uniform: "U", Index: "I" };

export const printTree = ({ body }: Program): string => block(body, "").join("\n");

const block = (statements: readonly Statement[], indent: string): string[] =>
  statements.flatMap((node) => statement(node).map((line) => `${indent}${line}`));

function statement(node: Statement): string[] {
  switch (node.form) {
    case "declare":
      return [`${node.changes ? "let" : "const"} ${node.name}:${LETTER[node.kind]} = ${expression(node.value)}`];
    case "assign":
      return [`${expression(node.target satisfies Target)} = ${expression(node.value)}`];
    case "loop":
      return [
        `loop ${node.name}:I from ${expression(node.from)} below ${expression(node.below)}`,
        ...block(node.body, "  "),
      ];
    case "when":
      return [`when ${test(node.test)}`, ...block(node.body, "  ")];
    case "leave":
      return ["leave"];
  }
}

function expression(node: Expression): string {
  switch (node.form) {
    case "constant":
      return Object.is(node.value, -0) ? "-0" : String(node.value);
    case "name":
      return `${node.name}:${LETTER[node.kind]}`;
    case "cell":
      return `${node.array}[${expression(node.index)}]:${LETTER[node.kind]}`;
    case "binary":
      return `(${expression(node.left)} ${node.operator} ${expression(node.right)})`;
    case "negative":
      return `(-${expression(node.of)})`;
    case "choice":
      return `(${test(node.test)} ? ${expression(node.met)} : ${expression(node.otherwise)})`;
    case "call":
      return `${node.helper}(${node.values.map(expression).join(", ")})`;
  }
}

const test = ({ operator, left, right }: Test): string => `${expression(left)} ${operator} ${expression(right)}`;
