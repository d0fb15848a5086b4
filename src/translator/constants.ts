// The layout's constants: every `export const NAME = 12;` of memory.ts.
import ts from "typescript";

export function readConstants(fileName: string, text: string): ReadonlyMap<string, number> {
  const constants = new Map<string, number>();
  for (const statement of ts.createSourceFile(fileName, text, ts.ScriptTarget.ES2023, true).statements) {
    if (!ts.isVariableStatement(statement)) continue;
    for (const { name, initializer } of statement.declarationList.declarations) {
      if (initializer !== undefined && ts.isNumericLiteral(initializer))
        constants.set(name.getText(), Number(initializer.text));
    }
  }
  return constants;
}
