// Makes a fresh checkout ready: installs what the lock file names and builds, each only when something changed.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

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

const run = (command, ...words) =>
  execFileSync(command, words, { stdio: ["ignore", "inherit", "inherit"], shell: process.platform === "win32" });
const npm = (...words) => run("npm", ...words);

unlessDone("install", ["package.json", "package-lock.json"], "node_modules/typescript/package.json", () => {
  console.log("Installing packages ...");
  npm("ci", "--no-audit", "--no-fund", "--loglevel=error");
});

unlessDone("build", [...filesBelow("src"), "tsconfig.json", "package.json"], "dist/cli/main.js", () => {
  console.log("Building ...");
  npm("run", "--silent", "build");
});

if (!statSync("dist/cli/main.js").isFile()) throw new Error("the build made no command line");
