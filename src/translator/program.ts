// Reads one function of a file, statement by statement, and the file's one-line functions. Whatever cannot be translated is refused.
import ts from "typescript";
import { cellOf, combine, readExpression, readTest, type Scope } from "./expressions.js";
import { refuse } from "./refuse.js";
import type { Expression, Helper, Kind, Operator, Program, Statement, Target } from "./tree.js";

type Names = Map<string, { readonly kind: Kind; readonly changes: boolean }>;

const MEMORIES: ReadonlyMap<string, "Varying" | "Uniform"> = new Map([
  ["VaryingMemory", "Varying"],
  ["UniformMemory", "Uniform"],
]);
const KINDS: ReadonlyMap<string, Kind> = new Map([
  ["Varying", "Varying"],
  ["Uniform", "Uniform"],
  ["Index", "Index"],
]);

/** Names of a file's functions. */
export const functionsIn = (fileName: string, text: string): string[] =>
  ts
    .createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true)
    .statements.flatMap((statement) => (ts.isFunctionDeclaration(statement) ? [statement.name?.text ?? ""] : []));

/** The function called `entry`; `constants` are what stands behind m.NAME. Throws where it is not of the dialect. */
export function readProgram(
  fileName: string,
  text: string,
  constants: ReadonlyMap<string, number>,
  entry: string,
): Program {
  const file = ts.createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true);
  const helpers = new Map<string, Helper>();
  for (const statement of file.statements) {
    if (ts.isVariableStatement(statement)) readHelpers(statement, helpers, constants);
    else if (ts.isFunctionDeclaration(statement)) {
      if (statement.name?.text === entry) return readFunction(statement, helpers, constants);
    } else if (!ts.isImportDeclaration(statement) && !ts.isTypeAliasDeclaration(statement)) {
      refuse(statement, "only functions, imports and types may stand here");
    }
  }
  return refuse(file, `has no function ${entry} to translate`);
}

function readHelpers(
  statement: ts.VariableStatement,
  helpers: Map<string, Helper>,
  constants: ReadonlyMap<string, number>,
): void {
  for (const { name, initializer } of statement.declarationList.declarations) {
    if (initializer === undefined || !ts.isArrowFunction(initializer) || ts.isBlock(initializer.body)) {
      refuse(statement, "must be a one-line function of lanes, (a: Varying) => expression");
    }
    const names: Names = new Map();
    for (const parameter of initializer.parameters) {
      if (parameter.type?.getText() !== "Varying") refuse(parameter, "a one-line function takes lanes");
      names.set(parameter.name.getText(), { kind: "Varying", changes: false });
    }
    const body = readExpression(initializer.body, { names, constants, arrays: new Map(), helpers });
    helpers.set(name.getText(), { parameters: [...names.keys()], body });
  }
}

function readFunction(
  node: ts.FunctionDeclaration,
  helpers: Map<string, Helper>,
  constants: ReadonlyMap<string, number>,
): Program {
  const arrays = new Map<string, "Varying" | "Uniform">();
  const names: Names = new Map();
  for (const parameter of node.parameters) {
    const name = parameter.name.getText();
    const type = parameter.type?.getText() ?? "";
    const memory = MEMORIES.get(type);
    if (memory !== undefined && names.size === 0) arrays.set(name, memory);
    else if (type === "Index") names.set(name, { kind: "Index", changes: false });
    else refuse(parameter, "parameters are memories (VaryingMemory, UniformMemory) and then counts (Index)");
  }
  const counts = [...names.keys()];
  const statements = node.body?.statements ?? [];
  return {
    arrays: [...arrays].map(([name, kind]) => ({ name, kind })),
    counts,
    helpers,
    body: readBlock(statements, { names, arrays, helpers, constants }),
  };
}

function readBlock(statements: readonly ts.Statement[], outer: Scope): Statement[] {
  const names: Names = new Map(outer.names);
  const scope = { ...outer, names };
  return statements.flatMap((statement) => readStatement(statement, scope));
}

function readStatement(node: ts.Statement, scope: Scope & { names: Names }): Statement[] {
  if (ts.isVariableStatement(node)) return node.declarationList.declarations.map((one) => declaration(one, scope));
  if (ts.isExpressionStatement(node)) return [assignment(node.expression, scope)];
  if (ts.isForStatement(node)) return [loop(node, scope)];
  if (ts.isIfStatement(node)) return [when(node, scope)];
  if (ts.isBreakStatement(node) && node.label === undefined) return [{ form: "leave" }];
  return refuse(node, "only declarations, assignments, counted loops, `if` on an Index and break are translated");
}

function declaration(node: ts.VariableDeclaration, scope: Scope & { names: Names }): Statement {
  const kind = KINDS.get(node.type?.getText() ?? "");
  if (kind === undefined || node.initializer === undefined)
    return refuse(node, "declare it with a value, as Varying, Uniform or Index");
  const changes = (node.parent.flags & ts.NodeFlags.Const) === 0;
  if (changes && kind === "Uniform") refuse(node, "a Uniform number never changes: use const");
  const value = readExpression(node.initializer, scope);
  fits(node, kind, value);
  const name = node.name.getText();
  if (scope.names.has(name)) refuse(node, "this name is taken");
  scope.names.set(name, { kind, changes });
  return { form: "declare", name, kind, changes, value };
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

function assignment(node: ts.Expression, scope: Scope): Statement {
  if (!ts.isBinaryExpression(node)) return refuse(node, "does nothing that can be translated");
  const target = targetOf(node.left, scope);
  const right = readExpression(node.right, scope);
  const operator = COMPOUND.get(node.operatorToken.kind);
  if (operator === undefined && node.operatorToken.kind !== ts.SyntaxKind.EqualsToken)
    refuse(node, "assign with = += -= or *=");
  const value = operator === undefined ? right : combine(node, operator, target, right);
  fits(node, target.kind, value);
  return { form: "assign", target, value };
}

function targetOf(node: ts.Expression, scope: Scope): Target {
  if (ts.isElementAccessExpression(node)) {
    const cell = cellOf(node, scope);
    return cell.kind === "Varying" ? cell : refuse(node, "a UniformMemory is only read");
  }
  const declared = scope.names.get(node.getText());
  if (declared === undefined || !declared.changes || declared.kind === "Uniform")
    return refuse(node, "only a memory cell or what was declared with let can be assigned");
  return { form: "name", kind: declared.kind, name: node.getText() };
}

/** for (let i: Index = from; i < below; i++) body. */
function loop(node: ts.ForStatement, scope: Scope): Statement {
  const { initializer, condition, incrementor, statement } = node;
  const shape = "write for (let i: Index = from; i < below; i++) { ... }";
  if (initializer === undefined || !ts.isVariableDeclarationList(initializer) || condition === undefined)
    return refuse(node, shape);
  const [counter] = initializer.declarations;
  if (counter?.initializer === undefined || counter.type?.getText() !== "Index") return refuse(node, shape);
  const name = counter.name.getText();
  if (incrementor?.getText() !== `${name}++`) return refuse(node, shape);
  const from = readExpression(counter.initializer, scope);
  fits(counter, "Index", from);
  const inner = { ...scope, names: new Map(scope.names).set(name, { kind: "Index", changes: false }) };
  const test = readTest(condition, inner);
  if (test.operator !== "<" || test.left.form !== "name" || test.left.name !== name) return refuse(condition, shape);
  return {
    form: "loop",
    name,
    from,
    below: test.right,
    body: readBlock(ts.isBlock(statement) ? statement.statements : [statement], inner),
  };
}

function when(node: ts.IfStatement, scope: Scope): Statement {
  if (node.elseStatement !== undefined) return refuse(node.elseStatement, "write a second `if` instead of else");
  const { kind, ...test } = readTest(node.expression, scope);
  if (kind !== "Index")
    refuse(node.expression, "no branch may depend on a Varying or Uniform number: choose a value with ? : instead");
  const then = node.thenStatement;
  return { form: "when", test, body: readBlock(ts.isBlock(then) ? then.statements : [then], scope) };
}
