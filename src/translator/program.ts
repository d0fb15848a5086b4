// Reads the functions of a file: those of one line, and one of several with all that it calls. Whatever cannot be translated is
// refused.
import ts from "typescript";
import { type Memory, readExpression } from "./expressions.js";
import { refuse } from "./refuse.js";
import { type DialectFunction, MEMORIES, type Names, readBlock, type StatementScope } from "./statements.js";
import type { Helper, Program } from "./tree.js";

/** What a file offers to its own functions and to those that import from it. */
export interface Module {
  readonly helpers: ReadonlyMap<string, Helper>;
  readonly functions: ReadonlyMap<string, DialectFunction>;
}

const NOTHING: Module = { helpers: new Map(), functions: new Map() };

/** Names of a file's functions. */
export const functionsIn = (fileName: string, text: string): string[] =>
  ts
    .createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true)
    .statements.flatMap((statement) => (ts.isFunctionDeclaration(statement) ? [statement.name?.text ?? ""] : []));

/** A file of the dialect; `constants` are what stands behind m.NAME, `imported` what its imports name. */
export function readModule(
  fileName: string,
  text: string,
  constants: ReadonlyMap<string, number>,
  imported: Module = NOTHING,
): Module {
  const file = ts.createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true);
  const helpers = new Map(imported.helpers);
  const functions = new Map(imported.functions);
  for (const statement of file.statements) {
    if (ts.isVariableStatement(statement)) readHelpers(statement, helpers, constants);
    else if (ts.isFunctionDeclaration(statement) && statement.name !== undefined)
      functions.set(statement.name.text, { node: statement, constants, helpers, functions });
    else if (!ts.isImportDeclaration(statement) && !ts.isTypeAliasDeclaration(statement))
      refuse(statement, "only functions, imports and types may stand here");
  }
  return { helpers, functions };
}

/** The function called `entry` of a file. Throws where it is not of the dialect. */
export function readProgram(
  fileName: string,
  text: string,
  constants: ReadonlyMap<string, number>,
  entry: string,
  imported: Module = NOTHING,
): Program {
  const found = readModule(fileName, text, constants, imported).functions.get(entry);
  if (found !== undefined) return readFunction(found);
  const file = ts.createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true);
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
      const name = parameter.name.getText();
      names.set(name, { kind: "Varying", changes: false, as: name });
    }
    const scope = { names, constants, arrays: new Map(), helpers };
    helpers.set(name.getText(), { parameters: [...names.keys()], body: readExpression(initializer.body, scope) });
  }
}

function readFunction({ node, helpers, constants, functions }: DialectFunction): Program {
  const arrays = new Map<string, Memory>();
  const names: Names = new Map();
  for (const parameter of node.parameters) {
    const name = parameter.name.getText();
    const type = parameter.type?.getText() ?? "";
    const memory = MEMORIES.get(type);
    if (memory !== undefined && names.size === 0) arrays.set(name, { kind: memory, as: name });
    else if (type === "Index") names.set(name, { kind: "Index", changes: false, as: name });
    else refuse(parameter, "parameters are memories (VaryingMemory, UniformMemory) and then counts (Index)");
  }
  const counts = [...names.keys()];
  const statements = node.body?.statements ?? [];
  const scope: StatementScope = {
    ...{ names, arrays, helpers, constants, functions },
    program: { helpers: new Map(helpers), calls: 0 },
    renamed: (name) => name,
  };
  return {
    arrays: [...arrays].map(([name, { kind }]) => ({ name, kind })),
    counts,
    body: readBlock(statements, scope),
    helpers: scope.program.helpers,
  };
}
