// What stands in other files: the layout's constants, every `export const NAME = 12;` of the file behind m, and imports by name.
import { dirname, join } from "node:path";
import ts from "typescript";

const parsed = (fileName: string, text: string) => ts.createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true);

export function readConstants(fileName: string, text: string): ReadonlyMap<string, number> {
  const constants = new Map<string, number>();
  for (const statement of parsed(fileName, text).statements) {
    if (!ts.isVariableStatement(statement)) continue;
    for (const { name, initializer } of statement.declarationList.declarations) {
      if (initializer !== undefined && ts.isNumericLiteral(initializer))
        constants.set(name.getText(), Number(initializer.text));
    }
  }
  return constants;
}

/** The file that `import * as m from "./NAME.js"` stands for; null where `fileName` imports none. */
export function layoutFileOf(fileName: string, text: string): string | null {
  const found = importsOf(fileName, text).find(({ bindings }) => bindings?.getText() === "* as m");
  return found?.from ?? null;
}

/** Files from which `fileName` imports values by name, and which. */
export const namedImports = (fileName: string, text: string): { from: string; names: string[] }[] =>
  importsOf(fileName, text).flatMap(({ bindings, from }) => {
    if (bindings === undefined || !ts.isNamedImports(bindings)) return [];
    const names = bindings.elements.flatMap(({ name, isTypeOnly }) => (isTypeOnly ? [] : [name.text]));
    return names.length === 0 ? [] : [{ from, names }];
  });

/** Imports of more than types, each with the file that `./NAME.js` or `../ROOM/NAME.js` stands for. */
function importsOf(fileName: string, text: string): { bindings: ts.NamedImportBindings | undefined; from: string }[] {
  return parsed(fileName, text).statements.flatMap((statement) => {
    if (!ts.isImportDeclaration(statement) || statement.importClause?.isTypeOnly === true) return [];
    const specifier = (statement.moduleSpecifier as ts.StringLiteral).text.replace(/\.js$/, ".ts");
    return [{ bindings: statement.importClause?.namedBindings, from: join(dirname(fileName), specifier) }];
  });
}
