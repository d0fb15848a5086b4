import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { lockPlace } from "../../src/files/lock.js";

let folder = "";
let before: string | undefined;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-lock-"));
  before = process.env.TMPDIR;
  process.env.TMPDIR = join(folder, "tmp");
  mkdirSync(process.env.TMPDIR);
});
afterEach(() => {
  if (before === undefined) delete process.env.TMPDIR;
  else process.env.TMPDIR = before;
  rmSync(folder, { recursive: true, force: true });
});

const locks = (): string[] => readdirSync(join(folder, "tmp"));
const theLock = (): string => join(folder, "tmp", locks()[0] as string);
const place = (): string => join(folder, "reports/x");

describe("a lock on a place", () => {
  it("refuses a second one by the number of its process, makes no folder, and leaves nothing", () => {
    const unlock = lockPlace(place());
    expect(() => lockPlace(place())).toThrow(InputError);
    expect(() => lockPlace(place())).toThrow(`another run (process ${process.pid}) is writing here`);
    expect(locks()).toHaveLength(1);
    unlock();
    expect([locks(), readdirSync(folder)]).toEqual([[], ["tmp"]]);
    lockPlace(place())();
  });

  it("holds whatever link leads there, and no other place", () => {
    mkdirSync(join(folder, "reports"));
    symlinkSync("reports", join(folder, "link"));
    const unlock = lockPlace(place());
    expect(() => lockPlace(join(folder, "link/x"))).toThrow(InputError);
    lockPlace(join(folder, "reports/y"))();
    unlock();
  });

  it("counts for nothing once its process is gone, killed or not", async () => {
    const child = spawn(process.execPath, ["-e", "setInterval(() => {}, 1e6)"]);
    const unlock = lockPlace(place());
    writeFileSync(theLock(), JSON.stringify({ pid: child.pid, birth: null }));
    expect(() => lockPlace(place())).toThrow(`process ${child.pid}`);
    child.kill("SIGKILL");
    await once(child, "exit");
    lockPlace(place())();
    expect(locks()).toEqual([]);
    unlock(); // whose lock it no longer is
  });

  it.skipIf(process.platform !== "linux")(
    "counts for nothing after a restart, though its number is in use again",
    () => {
      lockPlace(place());
      writeFileSync(theLock(), JSON.stringify({ pid: process.pid, birth: "another boot 77" }));
      lockPlace(place())();
    },
  );

  it("that is no lock of ours does not stand in the way", () => {
    lockPlace(place());
    for (const text of ["", "{", "null", '{"pid":-1,"birth":null}', '{"pid":"1"}']) {
      writeFileSync(theLock(), text);
      lockPlace(place())();
      lockPlace(place());
      rmSync(theLock(), { force: true });
      lockPlace(place());
    }
  });

  it("unlocks nothing that another run has locked since", () => {
    const unlock = lockPlace(place());
    writeFileSync(theLock(), '{"pid":1,"birth":null}');
    unlock();
    expect(locks()).toHaveLength(1);
  });

  it("is done without where there is no room for it", () => {
    process.env.TMPDIR = join(folder, "nowhere");
    lockPlace(place())();
  });
});
