// The program as one C function with every count open: the loop an engineer would have written there, for benchmarks.
import { expressionPrinter } from "./print-expression.js";
import type { Program, Statement, Target } from "./tree.js";

const TYPES = { Varying: "double", Uniform: "double", Index: "long" } as const;

export function printC({ arrays, counts, helpers, body }: Program): string {
  const pointers = arrays.map(({ name, kind }) => `${kind === "Uniform" ? "const " : ""}double *restrict ${name}`);
  const parameters = [...pointers, ...counts.map((count) => `long ${count}`)].join(", ");
  const functions = [...helpers].map(([name, helper]) => {
    const values = helper.parameters.map((parameter) => `double ${parameter}`).join(", ");
    return `static inline double ${name}(${values}) { return ${expression(helper.body)}; }`;
  });
  return `${functions.join("\n")}\n\nvoid advance(${parameters}) {\n${block(body, "  ")}}\n`;
}

const block = (statements: readonly Statement[], indent: string): string =>
  statements.map((node) => `${indent}${statement(node, indent)}\n`).join("");

function statement(node: Statement, indent: string): string {
  switch (node.form) {
    case "declare":
      return `${node.changes ? "" : "const "}${TYPES[node.kind]} ${node.name} = ${expression(node.value)};`;
    case "assign":
      return `${expression(node.target satisfies Target)} = ${expression(node.value)};`;
    case "loop": {
      const { name, from, below } = node;
      const head = `for (long ${name} = ${expression(from)}; ${name} < ${expression(below)}; ${name}++)`;
      return `${head} {\n${block(node.body, `${indent}  `)}${indent}}`;
    }
    case "when":
      return `if (${test(node.test)}) {\n${block(node.body, `${indent}  `)}${indent}}`;
    case "leave":
      return "break;";
  }
}

/** Whole numbers serve as places and as doubles alike. */
const { expression, test } = expressionPrinter({
  constant: (value) => (Object.is(value, -0) ? "-0.0" : String(value)),
  name: ({ name }) => name,
  cell: ({ array }, index) => `${array}[${index}]`,
  equal: "==",
});
