// The layout's constants: every `export const NAME = 12;` of the file that stands behind m.
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

/** The file that `import * as m from "./NAME.js"` stands for, beside `fileName`; null where it imports none. */
export function layoutFileOf(fileName: string, text: string): string | null {
  for (const statement of parsed(fileName, text).statements) {
    if (!ts.isImportDeclaration(statement) || statement.importClause?.namedBindings?.getText() !== "* as m") continue;
    const from = (statement.moduleSpecifier as ts.StringLiteral).text;
    return `${fileName.slice(0, fileName.lastIndexOf("/") + 1)}${from.replace(/^\.\//, "").replace(/\.js$/, ".ts")}`;
  }
  return null;
}
