// Expressions as text: alike in every language they are printed in, but for how numbers, names and cells are spelt.
import type { Expression, Test } from "./tree.js";

type Form<F extends Expression["form"]> = Extract<Expression, { form: F }>;

export interface Spelling {
  readonly constant: (value: number) => string;
  readonly name: (node: Form<"name">) => string;
  readonly cell: (node: Form<"cell">, index: string) => string;
  /** The equality sign of a test. */
  readonly equal: string;
  /** Left out: `test ? met : otherwise`. */
  readonly choice?: (node: Form<"choice">, printer: ExpressionPrinter) => string;
}

export interface ExpressionPrinter {
  readonly expression: (node: Expression) => string;
  readonly test: (test: Test) => string;
}

export function expressionPrinter(spelling: Spelling): ExpressionPrinter {
  const expression = (node: Expression): string => {
    switch (node.form) {
      case "constant":
        return spelling.constant(node.value);
      case "name":
        return spelling.name(node);
      case "cell":
        return spelling.cell(node, expression(node.index));
      case "binary":
        return `(${expression(node.left)} ${node.operator} ${expression(node.right)})`;
      case "negative":
        return `(-${expression(node.of)})`;
      case "choice":
        return (
          spelling.choice?.(node, printer) ??
          `(${test(node.test)} ? ${expression(node.met)} : ${expression(node.otherwise)})`
        );
      case "call":
        return `${node.helper}(${node.values.map(expression).join(", ")})`;
    }
  };
  const test = ({ operator, left, right }: Test): string =>
    `${expression(left)} ${operator === "===" ? spelling.equal : operator} ${expression(right)}`;
  const printer = { expression, test };
  return printer;
}
