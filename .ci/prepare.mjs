// Makes a fresh checkout ready: installs what the lock file names and builds, each only when something changed.
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

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));

const digest = (files) => {
  const hash = createHash("sha256");
  for (const file of files) hash.update(file).update("\0").update(readFileSync(file)).update("\0");
  return hash.digest("hex");
};

const filesBelow = (folder) =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();

// A stamp says what was made from; where it still holds there is nothing to do.
function unlessDone(name, inputs, proof, make) {
  const stamp = join("node_modules", `.gainscape-${name}`);
  const wanted = digest(inputs);
  if (existsSync(proof) && existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  make();
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

unlessDone("install", ["package.json", "package-lock.json"], "node_modules/typescript/package.json", () => {
  npm("Installing packages", "ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error");
});

unlessDone("build", [...filesBelow("src"), "tsconfig.json", "package.json"], "dist/cli/main.js", () => {
  npm("Building", "run", "--silent", "build");
});

if (!existsSync("dist/cli/main.js")) throw new Error("the build made no command line");
