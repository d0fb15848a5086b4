// The program as it was read, a line for each statement: every name and cell with its kind behind it (V varying, U uniform,
// I index).
import { expressionPrinter } from "./print-expression.js";
import type { Kind, Program, Statement, Target } from "./tree.js";

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

const { expression, test } = expressionPrinter({
  constant: (value) => (Object.is(value, -0) ? "-0" : String(value)),
  name: ({ name, kind }) => `${name}:${LETTER[kind]}`,
  cell: ({ array, kind }, index) => `${array}[${index}]:${LETTER[kind]}`,
  equal: "===",
});
