// gainscape check: read each file as a sweep would, say every problem, simulate nothing.
import { InputError, type Problem, plain } from "../base/problem.js";
import { checkFile } from "../flow/check.js";
import { EXIT } from "./exit.js";

export function checkCommand(files: readonly string[]): number {
  const problems: Problem[] = [];
  for (const file of files) {
    try {
      process.stdout.write(`${plain(`${file}: ${checkFile(file)}`)}\n`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new InputError(problems);
  return EXIT.done;
}
