// Makes a fresh checkout ready: installs what package-lock.json names and builds what src/ holds, each only where what it
// is made from has changed, and says which of the two it does and why.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

// Whatever fails in here says so in one line, under what the command that failed has said itself.
process.on("uncaughtException", ({ message }) => {
  process.stderr.write(`not ready: ${message.split("\n")[0]}\n`);
  process.exit(1);
});

const LOCK = "package-lock.json";
process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));

/** Of files by name and content, and of texts. */
const digest = (files, texts = []) => {
  const hash = createHash("sha256");
  for (const file of files) hash.update(file).update("\0").update(readFileSync(file)).update("\0");
  for (const text of texts) hash.update(text).update("\0");
  return hash.digest("hex");
};

const filesBelow = (folder) =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();

// A stamp says what was made from; where it still holds there is nothing to do. `make` is given the reason.
function unlessDone(name, wanted, sources, proof, make) {
  const stamp = join("node_modules", `.gainscape-${name}`);
  const made = existsSync(proof) && existsSync(stamp);
  if (made && readFileSync(stamp, "utf8") === wanted) return;
  make(made ? `${sources} changed` : "not done yet");
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
}

// As a part of another npm command, which hands its options down: npm pack --dry-run would install nothing.
const { npm_config_dry_run: _, ...env } = process.env;

// All on standard error: standard output belongs to the command this stands before, as npm pack --json.
function npm(doing, ...words) {
  console.error(`${doing} ...`);
  const options = { stdio: ["ignore", 2, 2], env, shell: process.platform === "win32" };
  const { status, signal, error } = spawnSync("npm", words, options);
  const command = ["npm", ...words.filter((word) => !word.startsWith("-"))].join(" ");
  if (status !== 0) throw new Error(`${command} failed (${error?.code ?? signal ?? `code ${status}`})`);
}

// The lock file names every package there is; the rest of package.json (scripts, texts) installs nothing.
unlessDone("install", digest([LOCK]), LOCK, "node_modules/typescript/package.json", (reason) => {
  npm(`Installing packages (${reason})`, "ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error");
});

// Compiler and bundler are packages; of package.json the build is its own script.
const { scripts = {} } = JSON.parse(readFileSync("package.json", "utf8"));
const built = digest([...filesBelow("src"), "tsconfig.json", LOCK], [scripts.build ?? ""]);
unlessDone("build", built, "its sources", "dist/cli/main.js", (reason) => {
  npm(`Building (${reason})`, "run", "--silent", "build");
});

if (!existsSync("dist/cli/main.js")) throw new Error("the build made no command line");
