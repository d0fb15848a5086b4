// A run outlives its terminal: what cannot be said costs no file.

import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { untilInterrupted } from "../../src/cli/signals.js";
import { emptyFolder, FILES, MAIN, runCached, runWith, startWith } from "./command.js";

const GLANCE = "test/fixtures/glance.yaml";

// Linux and its kin have a device that is always full.
describe.skipIf(!existsSync("/dev/full"))("a stream that takes nothing", () => {
  // What is written is the same, simulated or cached.
  const cache = mkdtempSync(join(tmpdir(), "gainscape-streams-"));
  beforeAll(async () => {
    expect((await runCached(cache, "sweep", GLANCE, "--out", emptyFolder(), "--quiet")).code).toBe(0);
  });
  afterAll(() => rmSync(cache, { recursive: true, force: true }));

  const sweep = async (shell: string, ...words: string[]) => {
    const out = emptyFolder();
    const environment = { XDG_CACHE_HOME: cache };
    const { code, stderr } = await runWith({ shell, environment }, "sweep", GLANCE, "--out", out, ...words);
    return { code, stderr, files: readdirSync(out).sort() };
  };
  const unheard = "incomplete: the outcome could not be written to standard output (ENOSPC)\n";

  it("standard output: every file is written, 3, and said so", async () => {
    const { code, stderr, files } = await sweep("exec >/dev/full", "--json");
    expect({ code, stderr, files }).toEqual({ code: 3, stderr: unheard, files: FILES });
    expect(await sweep("exec >/dev/full", "--quiet")).toEqual({ code: 0, stderr: "", files: FILES });
  });

  it("standard error, with the progress: 0", async () => {
    expect(await sweep("exec 2>/dev/full", "--no-cache")).toEqual({ code: 0, stderr: "", files: FILES });
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
    const { child, ended, says } = startWith({}, "sweep", GLANCE, "--out", out, "--workers", "1");
    await says("grid: ");
    child.kill("SIGHUP");
    child.kill("SIGHUP");
    expect((await ended).code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });
});

/** Runs a command on a terminal of its own, which goes away at the first word of progress; prints the exit code. */
const ON_A_TERMINAL = `
import fcntl, os, pty, subprocess, sys, termios
near, far = pty.openpty()
def own():
    os.setsid()
    if sys.argv[1] == "controlling": fcntl.ioctl(0, termios.TIOCSCTTY, 0)
run = subprocess.Popen(sys.argv[2:], stdin=far, stdout=far, stderr=far, preexec_fn=own)
os.close(far)
output = b""
while b"grid" not in output: output += os.read(near, 1000)
os.close(near)
print(run.wait())
`;

// Node alone makes no terminal; skipped aloud where Python is missing.
describe.skipIf(spawnSync("python3", ["-c", "import pty"]).status !== 0)("a terminal that is closed", () => {
  const closedUnder = (kind: string, out: string) =>
    new Promise<string>((resolve) => {
      const words = [process.execPath, MAIN, "sweep", GLANCE, "--out", out, "--workers", "1", "--no-cache"];
      const child = spawn("python3", ["-c", ON_A_TERMINAL, kind, ...words], { stdio: ["ignore", "pipe", "inherit"] });
      let output = "";
      child.stdout.setEncoding("utf8").on("data", (text: string) => {
        output += text;
      });
      child.on("close", () => resolve(output));
    });

  it("without a hang-up: every file, and 3 since the outcome went unheard", async () => {
    const out = emptyFolder();
    expect(await closedUnder("other", out)).toBe("3\n");
    expect(readdirSync(out).sort()).toEqual(FILES);
  });

  it("with one: 3, not the signal of an abort", async () => {
    expect(await closedUnder("controlling", emptyFolder())).toBe("3\n");
  });
});

it("a hang-up between the work and the exit does not end the process", async () => {
  const before = process.listenerCount("SIGHUP");
  expect(await untilInterrupted(async () => process.listenerCount("SIGHUP"))).toBe(before + 1);
  expect(process.listenerCount("SIGHUP")).toBeGreaterThan(0);
});
