// Reads statements one by one. A called function of several lines is put where it is called.
import ts from "typescript";
import { cellOf, combine, type Declared, type Memory, readExpression, readTest, type Scope } from "./expressions.js";
import { refuse } from "./refuse.js";
import type { Expression, Helper, Kind, Operator, Statement, Target } from "./tree.js";

export type Names = Map<string, Declared>;

export const MEMORIES: ReadonlyMap<string, Memory["kind"]> = new Map([
  ["VaryingMemory", "Varying"],
  ["UniformMemory", "Uniform"],
]);
const KINDS: ReadonlyMap<string, Kind> = new Map([
  ["Varying", "Varying"],
  ["Uniform", "Uniform"],
  ["Index", "Index"],
]);

/** A function of several lines, with all that its text may name. */
export interface DialectFunction {
  readonly node: ts.FunctionDeclaration;
  readonly constants: ReadonlyMap<string, number>;
  readonly helpers: ReadonlyMap<string, Helper>;
  readonly functions: ReadonlyMap<string, DialectFunction>;
}

export interface StatementScope extends Scope {
  readonly names: Names;
  readonly functions: ReadonlyMap<string, DialectFunction>;
  /** Of the whole program: all one-line functions that it calls, and how many of several lines were put in place. */
  readonly program: { readonly helpers: Map<string, Helper>; calls: number };
  /** What a name declared here is called in the program. */
  readonly renamed: (name: string) => string;
}

export function readBlock(statements: readonly ts.Statement[], outer: StatementScope): Statement[] {
  const scope = { ...outer, names: new Map(outer.names) };
  return statements.flatMap((statement) => readStatement(statement, scope));
}

function readStatement(node: ts.Statement, scope: StatementScope): Statement[] {
  if (ts.isVariableStatement(node)) return node.declarationList.declarations.flatMap((one) => declaration(one, scope));
  if (ts.isExpressionStatement(node)) return assignment(node.expression, scope);
  if (ts.isForStatement(node)) return [loop(node, scope)];
  if (ts.isIfStatement(node)) return [when(node, scope)];
  if (ts.isBreakStatement(node) && node.label === undefined) return [{ form: "leave" }];
  return refuse(node, "only declarations, assignments, counted loops, `if` on an Index and break are translated");
}

function declaration(node: ts.VariableDeclaration, scope: StatementScope): Statement[] {
  const kind = KINDS.get(node.type?.getText() ?? "");
  if (kind === undefined || node.initializer === undefined)
    return refuse(node, "declare it with a value, as Varying, Uniform or Index");
  const changes = (node.parent.flags & ts.NodeFlags.Const) === 0;
  if (changes && kind === "Uniform") refuse(node, "a Uniform number never changes: use const");
  const { before, value } = initialValue(node.initializer, scope);
  fits(node, kind, value);
  const name = node.name.getText();
  if (scope.names.has(name)) refuse(node, "this name is taken");
  const as = scope.renamed(name);
  scope.names.set(name, { kind, changes, as });
  return [...before, { form: "declare", name: as, kind, changes, value }];
}

/** What a name is given: an expression, or what a function of several lines returns after its statements. */
function initialValue(node: ts.Expression, scope: StatementScope): { before: Statement[]; value: Expression } {
  const called = calledBy(node, scope);
  if (called === null) return { before: [], value: readExpression(node, scope) };
  const { body, value } = inPlace(called, scope);
  return { before: body, value: value ?? refuse(node, "returns nothing") };
}

interface Call {
  readonly node: ts.CallExpression;
  readonly name: string;
  readonly called: DialectFunction;
}

/** The call of a function of several lines that an expression is; else null. */
function calledBy(node: ts.Expression, { functions }: StatementScope): Call | null {
  if (!ts.isCallExpression(node)) return null;
  const name = node.expression.getText();
  const called = functions.get(name);
  return called === undefined ? null : { node, name, called };
}

/** The statements of a called function, its own names made unlike all others, and what it returns at its end. */
function inPlace({ node, name, called }: Call, scope: StatementScope): { body: Statement[]; value: Expression | null } {
  const { parameters, body: text } = called.node;
  if (node.arguments.length !== parameters.length) refuse(node, `takes ${parameters.length} values`);
  const number = ++scope.program.calls;
  const renamed = (own: string) => `${name}${number}_${own}`;
  const [names, arrays, given]: [Names, Map<string, Memory>, Statement[]] = [new Map(), new Map(), []];
  for (const [at, parameter] of parameters.entries()) {
    const [own, argument] = [parameter.name.getText(), node.arguments[at] as ts.Expression];
    const type = parameter.type?.getText() ?? "";
    const [memory, kind] = [MEMORIES.get(type), KINDS.get(type)];
    if (memory !== undefined) arrays.set(own, memoryOf(argument, memory, scope));
    else if (kind === undefined) refuse(parameter, "parameters are memories, and Varying, Uniform or Index");
    else {
      const value = readExpression(argument, scope);
      fits(argument, kind, value);
      if (value.form === "name") names.set(own, { kind: value.kind, changes: false, as: value.name });
      else {
        given.push({ form: "declare", name: renamed(own), kind, changes: false, value });
        names.set(own, { kind, changes: false, as: renamed(own) });
      }
    }
  }
  const { constants, helpers, functions } = called;
  shareHelpers(called, scope);
  const inner: StatementScope = { names, arrays, constants, helpers, functions, program: scope.program, renamed };
  const statements = [...(text?.statements ?? [])];
  const last = statements.at(-1);
  if (last === undefined || !ts.isReturnStatement(last))
    return { body: [...given, ...readBlock(statements, inner)], value: null };
  const body = statements.slice(0, -1).flatMap((statement) => readStatement(statement, inner));
  const value = last.expression === undefined ? null : readExpression(last.expression, inner);
  return { body: [...given, ...body], value };
}

function memoryOf(argument: ts.Expression, kind: Memory["kind"], { arrays }: StatementScope): Memory {
  const memory = arrays.get(argument.getText());
  return memory?.kind === kind ? memory : refuse(argument, `expected a ${kind}Memory`);
}

/** One-line functions of another file join those of the program. */
function shareHelpers({ node, helpers }: DialectFunction, { program }: StatementScope): void {
  for (const [name, helper] of helpers) {
    const known = program.helpers.get(name);
    if (known !== undefined && JSON.stringify(known) !== JSON.stringify(helper))
      refuse(node, `its file and that of the caller have different functions called ${name}`);
    program.helpers.set(name, helper);
  }
}

function fits(node: ts.Node, kind: Kind, value: Expression): void {
  const ok = value.kind === kind || value.kind === "constant" || (kind === "Varying" && value.kind === "Uniform");
  if (!ok) refuse(node, `a ${value.kind} value does not fit a ${kind}`);
}

const COMPOUND: ReadonlyMap<ts.SyntaxKind, Operator> = new Map([
  [ts.SyntaxKind.PlusEqualsToken, "+"],
  [ts.SyntaxKind.MinusEqualsToken, "-"],
  [ts.SyntaxKind.AsteriskEqualsToken, "*"],
]);

function assignment(node: ts.Expression, scope: StatementScope): Statement[] {
  const called = calledBy(node, scope);
  if (called !== null) return inPlace(called, scope).body;
  if (!ts.isBinaryExpression(node)) return refuse(node, "does nothing that can be translated");
  const target = targetOf(node.left, scope);
  const { before, value: right } = initialValue(node.right, scope);
  const operator = COMPOUND.get(node.operatorToken.kind);
  if (operator === undefined && node.operatorToken.kind !== ts.SyntaxKind.EqualsToken)
    refuse(node, "assign with = += -= or *=");
  const value = operator === undefined ? right : combine(node, operator, target, right);
  fits(node, target.kind, value);
  return [...before, { form: "assign", target, value }];
}

function targetOf(node: ts.Expression, scope: StatementScope): Target {
  if (ts.isElementAccessExpression(node)) {
    const cell = cellOf(node, scope);
    return cell.kind === "Varying" ? cell : refuse(node, "a UniformMemory is only read");
  }
  const declared = scope.names.get(node.getText());
  if (declared === undefined || !declared.changes || declared.kind === "Uniform")
    return refuse(node, "only a memory cell or what was declared with let can be assigned");
  return { form: "name", kind: declared.kind, name: declared.as };
}

/** for (let i: Index = from; i < below; i++) body. */
function loop(node: ts.ForStatement, scope: StatementScope): Statement {
  const { initializer, condition, incrementor, statement } = node;
  const shape = "write for (let i: Index = from; i < below; i++) { ... }";
  if (initializer === undefined || !ts.isVariableDeclarationList(initializer) || condition === undefined)
    return refuse(node, shape);
  const [counter] = initializer.declarations;
  if (counter?.initializer === undefined || counter.type?.getText() !== "Index") return refuse(node, shape);
  const name = counter.name.getText();
  const as = scope.renamed(name);
  if (incrementor?.getText() !== `${name}++`) return refuse(node, shape);
  const from = readExpression(counter.initializer, scope);
  fits(counter, "Index", from);
  const inner = { ...scope, names: new Map(scope.names).set(name, { kind: "Index", changes: false, as }) };
  const test = readTest(condition, inner);
  if (test.operator !== "<" || test.left.form !== "name" || test.left.name !== as) return refuse(condition, shape);
  return {
    form: "loop",
    name: as,
    from,
    below: test.right,
    body: readBlock(ts.isBlock(statement) ? statement.statements : [statement], inner),
  };
}

function when(node: ts.IfStatement, scope: StatementScope): Statement {
  if (node.elseStatement !== undefined) return refuse(node.elseStatement, "write a second `if` instead of else");
  const { kind, ...test } = readTest(node.expression, scope);
  if (kind !== "Index")
    refuse(node.expression, "no branch may depend on a Varying or Uniform number: choose a value with ? : instead");
  const then = node.thenStatement;
  return { form: "when", test, body: readBlock(ts.isBlock(then) ? then.statements : [then], scope) };
}
