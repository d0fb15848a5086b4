// The program behind the first module: runs one command and returns its exit code.
import { terminalsToLeave } from "../files/handles.js";
import { runCommandLine } from "./command-line.js";
import { outcomeHeard } from "./streams.js";

export { reportFailure } from "./exit.js";

export async function runProgram(words: readonly string[]): Promise<number> {
  process.on("exit", terminalsToLeave());
  const heard = outcomeHeard(process.stdout, process.stderr);
  return heard(await runCommandLine(words));
}
