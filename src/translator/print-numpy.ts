// The program as one Python function on NumPy arrays, for benchmarks: every trial of a sweep in lockstep, one array per number.
import { expressionPrinter } from "./print-expression.js";
import type { Expression, Program, Statement } from "./tree.js";

/** Varying memories are [place][lane], shared memories are lists of floats. */
export function printNumpy({ arrays, counts, helpers, body }: Program): string {
  const parameters = [...arrays.map(({ name }) => name), ...counts].map(named).join(", ");
  const functions = [...helpers].map(
    ([name, { parameters: values, body: value }]) =>
      `def ${name}(${values.join(", ")}):\n  return ${expression(value)}\n`,
  );
  return `import numpy as np\n\n${functions.join("\n")}\ndef advance(${parameters}):\n${block(body, "  ")}`;
}

const block = (statements: readonly Statement[], indent: string): string =>
  statements.length === 0
    ? `${indent}pass\n`
    : statements.map((node) => `${indent}${statement(node, indent)}\n`).join("");

function statement(node: Statement, indent: string): string {
  const inner = `${indent}  `;
  switch (node.form) {
    case "declare":
      return `${named(node.name)} = ${copied(node.value)}`;
    case "assign":
      return `${expression(node.target)} = ${node.target.form === "name" ? copied(node.value) : expression(node.value)}`;
    case "loop":
      return `for ${named(node.name)} in range(${expression(node.from)}, ${expression(node.below)}):\n${block(node.body, inner).trimEnd()}`;
    case "when":
      return `if ${test(node.test)}:\n${block(node.body, inner).trimEnd()}`;
    case "leave":
      return "break";
  }
}

/** Names that are reserved words in Python. */
const named = (name: string): string => (name === "from" ? "begin" : name);

/** A row of a memory is a view of it: a name must get a copy of the present values. */
const copied = (value: Expression): string =>
  value.form === "cell" && value.kind === "Varying" ? `${expression(value)}.copy()` : expression(value);

const { expression, test } = expressionPrinter({
  constant: (value) => (Object.is(value, -0) ? "-0.0" : String(value)),
  name: ({ name }) => named(name),
  cell: ({ array }, index) => `${array}[${index}]`,
  equal: "==",
  choice,
});

function choice({ test: condition, met, otherwise }: Extract<Expression, { form: "choice" }>): string {
  const [left, right, ifTrue, ifFalse] = [condition.left, condition.right, met, otherwise].map(expression);
  if (condition.left.kind !== "Varying" && condition.right.kind !== "Varying")
    return `(${ifTrue} if ${test(condition)} else ${ifFalse})`;
  // NumPy's own minimum and maximum, as anybody who writes NumPy would use.
  if (ifTrue === left && ifFalse === right && condition.operator !== "===")
    return `np.${condition.operator === "<" ? "minimum" : "maximum"}(${left}, ${right})`;
  return `np.where(${test(condition)}, ${ifTrue}, ${ifFalse})`;
}
