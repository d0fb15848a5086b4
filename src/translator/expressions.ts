// Expressions of the dialect: arithmetic on lanes, shared numbers and indexes, memory cells, and a choice between two values.
import ts from "typescript";
import { refuse } from "./refuse.js";
import type { Expression, Kind, Operator, Test } from "./tree.js";

export interface Declared {
  readonly kind: Kind;
  readonly changes: boolean;
  /** Its name in the program: what a function of several lines declares must not meet the names around the call. */
  readonly as: string;
}

export interface Memory {
  readonly kind: "Varying" | "Uniform";
  /** Its name in the program. */
  readonly as: string;
}

/** What a name may stand for at one place. */
export interface Scope {
  readonly names: ReadonlyMap<string, Declared>;
  readonly arrays: ReadonlyMap<string, Memory>;
  readonly helpers: ReadonlyMap<string, { readonly parameters: readonly string[] }>;
  readonly constants: ReadonlyMap<string, number>;
}

export function readExpression(node: ts.Expression, scope: Scope): Expression {
  if (ts.isParenthesizedExpression(node)) return readExpression(node.expression, scope);
  if (ts.isNumericLiteral(node)) return { form: "constant", kind: "constant", value: Number(node.text) };
  if (ts.isPropertyAccessExpression(node)) return layoutConstant(node, scope);
  if (ts.isIdentifier(node)) return nameOf(node, scope);
  if (ts.isElementAccessExpression(node)) return cellOf(node, scope);
  if (ts.isPrefixUnaryExpression(node)) return negative(node, scope);
  if (ts.isBinaryExpression(node)) return binary(node, scope);
  if (ts.isConditionalExpression(node)) return choice(node, scope);
  if (ts.isCallExpression(node)) return call(node, scope);
  return refuse(node, "only arithmetic, memory cells, choices and one-line functions are translated");
}

function layoutConstant(node: ts.PropertyAccessExpression, scope: Scope): Expression {
  const value = node.expression.getText() === "m" ? scope.constants.get(node.name.text) : undefined;
  if (value === undefined) refuse(node, "only constants of memory.ts, as m.NAME, may be reached through a dot");
  return { form: "constant", kind: "constant", value };
}

function nameOf(node: ts.Identifier, scope: Scope): Expression {
  const declared = scope.names.get(node.text);
  if (declared === undefined) refuse(node, "not declared here as Varying, Uniform or Index");
  return { form: "name", kind: declared.kind, name: declared.as };
}

export function cellOf(node: ts.ElementAccessExpression, scope: Scope): Expression & { form: "cell" } {
  const memory = scope.arrays.get(node.expression.getText());
  if (memory === undefined) refuse(node, "only the memories among the parameters have cells");
  const index = readExpression(node.argumentExpression, scope);
  if (index.kind !== "Index" && index.kind !== "constant")
    refuse(node.argumentExpression, `a place must be an Index, this is ${index.kind}`);
  return { form: "cell", kind: memory.kind, array: memory.as, index };
}

function negative(node: ts.PrefixUnaryExpression, scope: Scope): Expression {
  if (node.operator !== ts.SyntaxKind.MinusToken) refuse(node, "of the signs before a value only minus is translated");
  const of = readExpression(node.operand, scope);
  if (of.form === "constant") return { ...of, value: -of.value };
  if (of.kind === "Index") refuse(node, "an Index is never negative");
  return { form: "negative", kind: of.kind, of };
}

const OPERATORS: ReadonlyMap<ts.SyntaxKind, Operator> = new Map([
  [ts.SyntaxKind.PlusToken, "+"],
  [ts.SyntaxKind.MinusToken, "-"],
  [ts.SyntaxKind.AsteriskToken, "*"],
  [ts.SyntaxKind.SlashToken, "/"],
  [ts.SyntaxKind.PercentToken, "%"],
]);

function binary(node: ts.BinaryExpression, scope: Scope): Expression {
  const operator = OPERATORS.get(node.operatorToken.kind);
  if (operator === undefined) refuse(node, "of the operators + - * / and, on an Index, % are translated");
  return combine(node, operator, readExpression(node.left, scope), readExpression(node.right, scope));
}

export function combine(node: ts.Node, operator: Operator, left: Expression, right: Expression): Expression {
  const kind = joined(node, left, right);
  if (left.form === "constant" && right.form === "constant") {
    return { form: "constant", kind: "constant", value: FOLD[operator](left.value, right.value) };
  }
  if (kind === "Index" ? operator === "/" || operator === "-" : operator === "%") {
    refuse(node, kind === "Index" ? "an Index knows only + * and %" : "only an Index knows %");
  }
  return { form: "binary", kind, operator, left, right };
}

const FOLD: Readonly<Record<Operator, (a: number, b: number) => number>> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  "%": (a, b) => a % b,
};

/** The kind of what holds both: an Index meets no other kind, a Varying makes a Varying. Two constants count as Uniform. */
function joined(node: ts.Node, left: Expression, right: Expression): Kind {
  const kinds = [left.kind, right.kind];
  if (!kinds.includes("Index")) return kinds.includes("Varying") ? "Varying" : "Uniform";
  if (kinds.includes("Varying") || kinds.includes("Uniform"))
    refuse(node, "an Index cannot be mixed with a Varying or Uniform number");
  return "Index";
}

const COMPARISONS: ReadonlyMap<ts.SyntaxKind, Test["operator"]> = new Map([
  [ts.SyntaxKind.LessThanToken, "<"],
  [ts.SyntaxKind.GreaterThanToken, ">"],
  [ts.SyntaxKind.EqualsEqualsEqualsToken, "==="],
]);

export function readTest(node: ts.Expression, scope: Scope): Test & { kind: Kind } {
  if (!ts.isBinaryExpression(node)) return refuse(node, "only a comparison can be tested");
  const operator = COMPARISONS.get(node.operatorToken.kind);
  if (operator === undefined) refuse(node, "of the comparisons < > and === are translated");
  const left = readExpression(node.left, scope);
  const right = readExpression(node.right, scope);
  return { operator, left, right, kind: joined(node, left, right) };
}

function choice(node: ts.ConditionalExpression, scope: Scope): Expression {
  const { kind: tested, ...test } = readTest(node.condition, scope);
  const met = readExpression(node.whenTrue, scope);
  const otherwise = readExpression(node.whenFalse, scope);
  const chosen = joined(node, met, otherwise);
  if (tested !== "Index" && chosen === "Index") refuse(node, "no place may depend on a Varying or Uniform number");
  return { form: "choice", kind: tested === "Varying" ? "Varying" : chosen, test, met, otherwise };
}

function call(node: ts.CallExpression, scope: Scope): Expression {
  const helper = node.expression.getText();
  const declared = scope.helpers.get(helper);
  if (declared === undefined) refuse(node, "only one-line functions can be called within an expression");
  const values = node.arguments.map((argument) => readExpression(argument, scope));
  if (values.length !== declared.parameters.length) refuse(node, `takes ${declared.parameters.length} values`);
  if (values.some((value) => value.kind === "Index")) refuse(node, "takes Varying or Uniform numbers");
  return { form: "call", kind: "Varying", helper, values };
}
