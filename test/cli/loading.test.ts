// What keeps the program from loading or from starting its work: never exit code 1, which means a regression.
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, FILES, MAIN, READABLE, runWith } from "./command.js";

const GLANCE = "test/fixtures/glance.yaml";
const SABOTAGE = "test/cli/sabotage.mjs";

/** An installation of its own, to be injured; without packages on request. */
function installed(packages = true): string {
  const home = emptyFolder();
  cpSync("dist", join(home, "dist"), { recursive: true });
  cpSync("package.json", join(home, "package.json"));
  if (packages) symlinkSync(resolve("node_modules"), join(home, "node_modules"));
  return home;
}

const main = (home: string): string => join(home, MAIN);

describe("a program with parts missing", () => {
  it.each(["gate", "sweep", "--version"])("without its packages, %s ends with 70 and one line", async (command) => {
    const { code, stdout, stderr } = await runWith({ main: main(installed(false)) }, command, GLANCE);
    expect({ code, stdout }).toEqual({ code: 70, stdout: "" });
    expect(stderr).toMatch(
      /^gainscape could not be loaded: Cannot find package 'commander' .*\(is it installed whole\?.*\n$/,
    );
    expect(stderr).toMatch(READABLE);
  });

  it.each(["cli/program.js", "cli/not-loaded.js", "cli/exit.js", "map/build.js", "base/version.js", "files/write.js"])(
    "%s missing or cut short: the same",
    async (module) => {
      const home = installed();
      const file = join(home, "dist", module);
      const text = readFileSync(file, "utf8");
      // Cut inside of a name, so that what is left is no module.
      writeFileSync(file, `${text.slice(0, text.indexOf("import ") + 9)}`);
      const cut = await runWith({ main: main(home) }, "gate", GLANCE);
      rmSync(file);
      const gone = await runWith({ main: main(home) }, "gate", GLANCE);
      for (const { code, stderr } of [cut, gone]) {
        expect(code).toBe(70);
        expect(stderr).toMatch(/^gainscape could not be loaded: .*\n$/);
      }
    },
  );

  it("its workers' module: 3, as for any worker that is lost", async () => {
    const home = installed();
    rmSync(join(home, "dist/run/worker.js"));
    const { code, stderr } = await runWith(
      { main: main(home) },
      "sweep",
      GLANCE,
      "--out",
      join(home, "out"),
      "--quiet",
    );
    expect([code, /^incomplete: a worker was lost: /m.test(stderr)]).toEqual([3, true]);
  });

  it("whose work never comes to an end: 70, not Node's own code", async () => {
    const home = installed();
    const stuck = "export const reportFailure = () => 3; export const runProgram = () => new Promise(() => {});";
    writeFileSync(join(home, "dist/cli/program.js"), stuck);
    expect((await runWith({ main: main(home) }, "gate", GLANCE)).code).toBe(70);
  });
});

describe("a system that grants too little", () => {
  it.each([24, 32, 64, 96, 128])("%d files at once: 3, and what to set", async (handles) => {
    const { code, stderr } = await runWith({ shell: `ulimit -n ${handles}` }, "gate", GLANCE);
    expect({ code, stderr }).toEqual({
      code: 3,
      stderr:
        "gainscape could not be loaded: too few files may be open at once (EMFILE); raise the limit, as with ulimit -n 1024\n",
    });
  });

  it("no home folder: 2, and what to set; with any of it set, no word", async () => {
    const homeless = { SABOTAGE: "homeless", XDG_CACHE_HOME: "" };
    const around = { environment: homeless, preload: SABOTAGE };
    const words = ["sweep", GLANCE, "--quiet"];
    const message =
      "cache: no home folder to put it in; set HOME or XDG_CACHE_HOME, or give --cache FOLDER or --no-cache\n";
    expect(await runWith(around, ...words, "--out", emptyFolder())).toEqual({ code: 2, stdout: "", stderr: message });
    expect((await runWith(around, "cache")).stderr).toBe(message);
    const calm = { code: 0, stdout: "", stderr: "" };
    const set = { environment: { ...homeless, XDG_CACHE_HOME: emptyFolder() }, preload: SABOTAGE };
    expect(await runWith(set, ...words, "--out", emptyFolder())).toEqual(calm);
    expect(await runWith(around, ...words, "--out", emptyFolder(), "--no-cache")).toEqual(calm);
  });

  it("a working folder that was deleted: 2, said so; help needs none", async () => {
    const gone = join(emptyFolder(), "gone");
    mkdirSync(gone);
    const around = { shell: `cd '${gone}' && rmdir '${gone}'`, main: resolve(MAIN) };
    const { code, stderr } = await runWith(around, "sweep", resolve(GLANCE));
    expect({ code, stderr }).toEqual({
      code: 2,
      stderr: "gainscape: the working folder is gone; change into a folder that is there\n",
    });
    mkdirSync(gone);
    expect((await runWith(around, "--help")).code).toBe(0);
  });
});

describe("threads", () => {
  const TASKS = "test/fixtures/tasks.yaml"; // four of them
  const sweep = async (environment: Record<string, string>, workers: string) => {
    const out = emptyFolder();
    const around = { environment, preload: SABOTAGE };
    const ended = await runWith(around, "sweep", TASKS, "--out", out, "--workers", workers, "--no-cache", "--quiet");
    return { ...ended, out };
  };

  it("fewer than requested: the run goes on with those, to the same map", async () => {
    const [all, few] = [await sweep({}, "2"), await sweep({ SABOTAGE: "threads", SABOTAGE_AFTER: "2" }, "4")];
    expect([few.code, few.stderr]).toEqual([0, ""]);
    for (const file of FILES)
      expect(readFileSync(join(few.out, file)).equals(readFileSync(join(all.out, file))), file).toBe(true);
  });

  it("none at all: 3, and what to set", async () => {
    const { code, stderr } = await sweep({ SABOTAGE: "threads", SABOTAGE_AFTER: "0" }, "4");
    expect(code).toBe(3);
    expect(stderr).toMatch(/^incomplete: no worker thread could be started: allow more of them, as with ulimit -u /m);
  });

  it("no more than there are tasks for, whatever was requested", async () => {
    const { code, stderr } = await sweep({ SABOTAGE: "counts" }, "256");
    const [, started = ""] = /^threads: (\d+)\n$/.exec(stderr) ?? [];
    expect(code).toBe(0);
    expect(Number(started)).toBeLessThanOrEqual(4);
  });
});
