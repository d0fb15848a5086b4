// Runs one command line after another in one process, which a test file starts once: what a process spends on starting,
// loading and compiling is spent once a file. Each command has its own working folder, environment and output.
import { runCommandLine } from "../../dist/cli/command-line.js";

const said = { stdout: "", stderr: "" };
for (const name of ["stdout", "stderr"])
  process[name].write = (text) => {
    said[name] += text;
    return true;
  };

async function answer({ words, folder, environment }) {
  process.chdir(folder);
  for (const name of Object.keys(process.env)) delete process.env[name];
  Object.assign(process.env, environment);
  Object.assign(said, { stdout: "", stderr: "" });
  const code = await runCommandLine(words);
  process.send({ code, ...said });
}

process.on("message", (asked) => void answer(asked));
process.on("disconnect", () => process.exit());
