// Import statements of a source file, as the compiler parses them.
import ts from "typescript";

export interface Import {
  /** As written: "../base/units.js", "node:fs", "zod". */
  readonly from: string;
  /** True where nothing of it is left once types are gone. */
  readonly typeOnly: boolean;
  /** Only where it is an import(): loaded when the code comes by, not with the file. */
  readonly onDemand?: true;
}

export function importsOf(file: string, text: string): Import[] {
  const found: Import[] = [];
  const visit = (node: ts.Node): void => {
    if (
      (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) &&
      node.moduleSpecifier !== undefined &&
      ts.isStringLiteral(node.moduleSpecifier)
    ) {
      found.push({
        from: node.moduleSpecifier.text,
        typeOnly: ts.isImportDeclaration(node) ? importsTypes(node) : exportsTypes(node),
      });
    }
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      const [named] = node.arguments;
      found.push({
        from: named !== undefined && ts.isStringLiteral(named) ? named.text : "a computed name",
        typeOnly: false,
        onDemand: true,
      });
    }
    if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal)) {
      found.push({ from: node.argument.literal.text, typeOnly: true });
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, false));
  return found;
}

function importsTypes({ importClause }: ts.ImportDeclaration): boolean {
  if (importClause === undefined) return false;
  if (importClause.isTypeOnly) return true;
  const { name, namedBindings } = importClause;
  return (
    name === undefined &&
    namedBindings !== undefined &&
    ts.isNamedImports(namedBindings) &&
    namedBindings.elements.every((one) => one.isTypeOnly)
  );
}

const exportsTypes = ({ isTypeOnly, exportClause }: ts.ExportDeclaration): boolean =>
  isTypeOnly ||
  (exportClause !== undefined &&
    ts.isNamedExports(exportClause) &&
    exportClause.elements.every((one) => one.isTypeOnly));
