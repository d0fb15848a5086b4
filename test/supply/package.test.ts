// What the package is made of, brings along and ships.
import { execFileSync, spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { emptyFolder } from "../cli/command.js";
import { installed, TABLE, table } from "./licences.mjs";

interface Locked {
  readonly version: string;
  readonly integrity?: string;
  readonly hasInstallScript?: boolean;
}

const json = (file: string) => JSON.parse(readFileSync(file, "utf8"));
const manifest = json("package.json");
const locked = Object.entries(json("package-lock.json").packages as Record<string, Locked>).filter(
  ([path]) => path !== "",
);

describe("what is installed", () => {
  it("is pinned to one version each, the one of the lock file", () => {
    for (const [name, version] of Object.entries<string>({ ...manifest.dependencies, ...manifest.devDependencies })) {
      expect([name, version]).toEqual([name, expect.stringMatching(/^\d+\.\d+\.\d+$/)]);
      const [, entry] = locked.find(([path]) => path === `node_modules/${name}`) ?? [];
      expect([name, entry?.version]).toEqual([name, version]);
    }
  });

  it("has a digest each, and runs no script when it is installed", () => {
    expect(locked.filter(([, { integrity }]) => !integrity?.startsWith("sha512-")).map(([path]) => path)).toEqual([]);
    expect(locked.filter(([, { hasInstallScript }]) => hasInstallScript).map(([path]) => path)).toEqual([]);
    for (const when of ["preinstall", "install", "postinstall", "prepare"])
      expect(manifest.scripts[when]).toBe(undefined);
  });

  it("is as few packages as there is a reason for", () => {
    expect(Object.keys(manifest.dependencies).length).toBeLessThanOrEqual(13);
  });

  it("is under licences that ask for no more than their notice, each as its own package says", () => {
    const free = new Set(["MIT", "ISC", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Unlicense", "Apache-2.0"]);
    for (const { name, licence, own } of installed()) {
      expect([name, free.has(licence)]).toEqual([name, true]);
      expect([name, own]).toEqual([name, licence]);
    }
  });

  it(`is listed in ${TABLE}; node test/supply/licences.mjs writes it anew`, () => {
    expect(readFileSync(TABLE, "utf8")).toBe(table());
  });
});

describe("a fresh checkout", () => {
  it("is made ready before whatever needs it, packing and checking too", () => {
    for (const name of ["prestart", "pretest", "precheck", "prepack", "prebench", "predocs"])
      expect([name, manifest.scripts[name]]).toEqual([name, "node .ci/prepare.mjs"]);
  });

  /** A checkout of next to nothing, made ready with an npm of our own. */
  const made = (npm: string | null) => {
    const home = emptyFolder();
    mkdirSync(join(home, ".ci"));
    copyFileSync(".ci/prepare.mjs", join(home, ".ci/prepare.mjs"));
    for (const file of ["package.json", "package-lock.json", "tsconfig.json"]) writeFileSync(join(home, file), "{}");
    mkdirSync(join(home, "src"));
    mkdirSync(join(home, "bin"));
    if (npm !== null) writeFileSync(join(home, "bin/npm"), `#!/bin/sh\n${npm}\n`, { mode: 0o755 });
    const env = { ...process.env, PATH: `${join(home, "bin")}:/usr/bin:/bin`, npm_config_dry_run: "true" };
    const alone = npm === null ? { ...env, PATH: join(home, "bin") } : env;
    return spawnSync(process.execPath, [".ci/prepare.mjs"], { cwd: home, env: alone, encoding: "utf8" });
  };

  it.each([
    ["npm fails", "exit 7", "not ready: npm ci failed (code 7)"],
    ["npm is not there", null, "not ready: npm ci failed (ENOENT)"],
    ["npm is killed", "kill -9 $$", "not ready: npm ci failed (SIGKILL)"],
    ["npm builds nothing", "mkdir -p node_modules", "not ready: the build made no command line"],
  ])("where %s, says so in one line and ends with 1", (_, npm, line) => {
    const { status, stdout, stderr } = made(npm);
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    const lines = stderr
      .split("\n")
      .filter((one) => !/^(Installing packages|Building) \(not done yet\) \.\.\.$/.test(one));
    expect(lines).toEqual([line, ""]);
  });

  it("is made ready in earnest also where npm only packs for show", () => {
    const { stdout, stderr } = made('echo "dry run: $npm_config_dry_run"; exit 7');
    expect(stdout).toBe(""); // which belongs to npm pack --json
    expect(stderr).toContain("dry run: \n");
  });
});

describe("what npm pack ships", () => {
  interface Packed {
    readonly size: number;
    readonly unpackedSize: number;
    readonly files: readonly { readonly path: string; readonly mode: number }[];
  }
  let packed: Packed;
  let paths: string[] = [];
  beforeAll(() => {
    const words = ["pack", "--dry-run", "--json", "--ignore-scripts"];
    [packed] = JSON.parse(execFileSync("npm", words, { encoding: "utf8", shell: process.platform === "win32" }));
    paths = packed.files.map(({ path }) => path);
  });

  it("is what runs, the shipped craft and sweeps, and what explains them", () => {
    const wanted =
      /^(dist\/.*\.(js|d\.ts|wasm)|(models|sweeps)\/(.*\.(yaml|json)|README\.md|guides\/.*\.(md|yml))|package\.json|README\.md|LICENSE|CHANGELOG\.md)$/;
    expect(paths.filter((path) => !wanted.test(path))).toEqual([]);
    for (const path of [
      "dist/cli/main.js",
      "dist/run/worker.js",
      "dist/index.js",
      "dist/index.d.ts",
      "dist/kernel/vector-4-0-0-0.wasm",
      "dist/theory/lanes.wasm",
      "models/README.md",
      "sweeps/README.md",
      "sweeps/guides/comparing.md",
    ])
      expect(paths).toContain(path);
    for (const file of [manifest.bin.gainscape, manifest.exports["."].default, manifest.exports["."].types])
      expect(paths).toContain(file.replace("./", ""));
  });

  it("keeps the notices of the functions that follow fdlibm, in the page's script too", () => {
    for (const file of [
      "base/exponential.js",
      "base/circular.js",
      "base/arctangent.js",
      "base/power.js",
      "page/script.js",
    ]) {
      const text = readFileSync(`dist/${file}`, "utf8").replace(/\n(\/\/ )?/g, " ");
      expect([
        file,
        /Sun Microsystems, Inc\. All rights reserved\. Permission .* notice is preserved\./.test(text),
      ]).toEqual([file, true]);
      expect(paths).toContain(`dist/${file}`);
    }
  });

  it("holds nothing of sources that are gone", () => {
    const made = /^dist\/(kernel\/vector-\d-[01]-[01]-[01]\.wasm|theory\/lanes\.wasm|page\/script\.js)$/;
    const stale = paths.filter((path) => {
      const [, module] = /^dist\/(.*?)(\.d\.ts|\.js)$/.exec(path) ?? [];
      return path.startsWith("dist/") && !made.test(path) && (module === undefined || !existsSync(`src/${module}.ts`));
    });
    expect(stale, "left by an older build: remove dist and build again").toEqual([]);
  });

  it("is small", () => {
    expect(packed.size).toBeLessThan(3_700_000);
    expect(packed.unpackedSize).toBeLessThan(10_700_000);
  });
});
