// gainscape check: read each file as a sweep would, report every problem, simulate nothing.
import { Problems, printable } from "../base/problem.js";
import { checkFile } from "../flow/check.js";
import { EXIT } from "./exit.js";

export function checkCommand(files: readonly string[]): number {
  const problems = new Problems();
  for (const file of files) {
    const found = problems.attempt(() => checkFile(file));
    if (found !== null) process.stdout.write(`${printable(`${file}: ${found}`)}\n`);
  }
  problems.throwIfAny();
  return EXIT.done;
}
