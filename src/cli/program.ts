// The program behind the first module: runs one command and returns its exit code.
import { terminalsToLeave } from "../files/handles.js";
import { runCommandLine } from "./command-line.js";
import { guardOutput } from "./streams.js";

export { reportFailure } from "./exit.js";

export async function runProgram(words: readonly string[]): Promise<number> {
  process.on("exit", terminalsToLeave());
  const finalCode = guardOutput(process.stdout, process.stderr);
  return finalCode(await runCommandLine(words));
}
