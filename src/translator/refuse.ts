// Code outside the dialect is refused with its place and what to write instead.
import type ts from "typescript";

class NotInDialect extends Error {
  override readonly name = "NotInDialect";
}

export function refuse(node: ts.Node, why: string): never {
  const file = node.getSourceFile();
  const { line, character } = file.getLineAndCharacterOfPosition(node.getStart());
  const [shown] = node.getText().split("\n");
  throw new NotInDialect(`${file.fileName}:${line + 1}:${character + 1} \`${shown}\`: ${why}`);
}
