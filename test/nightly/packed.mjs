// The package as npm packs it from a fresh clone, which it makes ready first; installed without running any script, run in a folder that has nothing else.
import { cpSync, mkdirSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { digestOf, expectCode, expectSame, inFolder, ROOT, run } from "./command.mjs";

export const step = () =>
  inFolder(async (home) => {
    const clone = join(home, "clone");
    await expectCode(0, "git", ["clone", "--quiet", ROOT, clone]);
    await expectCode(0, "npm", ["pack", "--pack-destination", home], { cwd: clone });
    const filename = readdirSync(home).find((name) => name.endsWith(".tgz"));
    if (filename === undefined) throw new Error("npm pack left no archive");
    const { size } = statSync(join(home, filename));
    const user = join(home, "user");
    mkdirSync(user);
    writeFileSync(join(user, "package.json"), '{"private": true}');
    const quiet = ["--ignore-scripts", "--omit=dev", "--no-audit", "--no-fund", "--loglevel=error"];
    await expectCode(0, "npm", ["install", join(home, filename), ...quiet], { cwd: user });
    const shipped = join(user, "node_modules/gainscape");
    for (const folder of ["models", "sweeps"]) cpSync(join(shipped, folder), join(user, folder), { recursive: true });
    // Where things stand must not count: by the same relative paths.
    const words = ["sweep", "sweeps/propeller-change.yaml", "--no-cache", "--quiet", "--out"];
    await expectCode(0, "npx", ["--no-install", "gainscape", ...words, "mine"], { cwd: user });
    await run([...words, join(home, "ours")], { cwd: ROOT });
    expectSame(digestOf(join(user, "mine/map.json")), digestOf(join(home, "ours/map.json")), "map.json");
    return `${(size / 1024).toFixed(0)} KiB packed from a fresh clone, installed without scripts, makes the same map`;
  });
