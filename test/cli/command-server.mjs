// Runs one command line after another in one process, which a test file starts once: what a process spends on starting,
// loading and compiling is spent once a file. Each command has its own working folder, environment and output.
import { runCommandLine } from "../../dist/cli/command-line.js";

const output = { stdout: "", stderr: "" };
for (const name of ["stdout", "stderr"])
  process[name].write = (text) => {
    output[name] += text;
    return true;
  };

async function answer({ words, folder, environment }) {
  process.chdir(folder);
  for (const name of Object.keys(process.env)) delete process.env[name];
  Object.assign(process.env, environment);
  Object.assign(output, { stdout: "", stderr: "" });
  const code = await runCommandLine(words);
  process.send({ code, ...output });
}

process.on("message", (request) => void answer(request));
process.on("disconnect", () => process.exit());
