// A run outlives its terminal: what cannot be said costs no file.
import { existsSync, readdirSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import { emptyFolder, FILES, runWith, startWith } from "./command.js";

const QUICK = "test/fixtures/quick.yaml";

vi.setConfig({ testTimeout: 120_000 });

// Linux and its kin have a device that is always full.
describe.skipIf(!existsSync("/dev/full"))("a stream that takes nothing", () => {
  const sweep = async (shell: string, ...words: string[]) => {
    const out = emptyFolder();
    const { code, stderr } = await runWith({ shell }, "sweep", QUICK, "--out", out, ...words);
    return { code, stderr, files: readdirSync(out).sort() };
  };
  const unheard = "incomplete: the outcome could not be written to standard output (ENOSPC)\n";

  it("standard output: every file is written, 3, and said so", async () => {
    const { code, stderr, files } = await sweep("exec >/dev/full", "--json");
    expect({ code, stderr, files }).toEqual({ code: 3, stderr: unheard, files: FILES });
    expect(await sweep("exec >/dev/full", "--quiet")).toEqual({ code: 0, stderr: "", files: FILES });
  });

  it("standard error, with the progress: 0", async () => {
    expect(await sweep("exec 2>/dev/full")).toEqual({ code: 0, stderr: "", files: FILES });
  });

  it("both: 3, and every file", async () => {
    expect(await sweep("exec >/dev/full 2>/dev/full")).toEqual({ code: 3, stderr: "", files: FILES });
  });

  it("closed ones: 0, and every file", async () => {
    expect(await sweep("exec >&- 2>&-")).toEqual({ code: 0, stderr: "", files: FILES });
  });

  it("a fault keeps its code, unheard as it is", async () => {
    expect((await runWith({ shell: "exec 2>/dev/full" }, "check", "nowhere.yaml")).code).toBe(2);
    expect(await runWith({ shell: "exec >/dev/full" }, "--version")).toEqual({ code: 3, stdout: "", stderr: unheard });
  });
});

describe("a hang-up", () => {
  it("ends no run that has no terminal, as under nohup", async () => {
    const out = emptyFolder();
    const { child, ended, says } = startWith({}, "sweep", QUICK, "--out", out, "--workers", "1");
    await says("grid: ");
    child.kill("SIGHUP");
    child.kill("SIGHUP");
    expect((await ended).code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });
});
