// Loaded before the command line and into each of its workers, to injure it from inside: SABOTAGE says how.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import os from "node:os";
import { basename } from "node:path";
import tty from "node:tty";
import threads, { isMainThread } from "node:worker_threads";

const { SABOTAGE: kind, SABOTAGE_AFTER: after = "60" } = process.env;

const INJURIES = {
  exits: () => process.exit(9),
  throws: () => {
    throw new TypeError("sabotaged");
  },
  hangs: () => {
    for (;;);
  },
  hoards: () => {
    const hoard = [];
    for (;;) hoard.push(new Array(100_000).fill(hoard.length));
  },
};

if (!isMainThread && kind in INJURIES) {
  // Each trial's results are set into those of its task.
  const { set } = Float64Array.prototype;
  let trials = 0;
  Float64Array.prototype.set = function (...words) {
    if (words[1] > 0 && ++trials > Number(after)) INJURIES[kind]();
    return set.apply(this, words);
  };
}

if (isMainThread && kind === "hangs") {
  // Nobody waits two minutes here: once a task is done and cached, time runs two thousand times as fast.
  const { renameSync } = fs;
  const now = performance.now.bind(performance);
  const again = globalThis.setInterval;
  let since = null;
  fs.renameSync = (...words) => {
    since ??= now();
    return renameSync(...words);
  };
  performance.now = () => (since === null ? now() : now() + 2_000 * (now() - since));
  globalThis.setInterval = (act, time, ...rest) => again(act, time === 250 ? 1 : time, ...rest);
  syncBuiltinESMExports();
}

if (isMainThread && kind === "threads") {
  // The system grants SABOTAGE_AFTER threads and no more.
  const { Worker } = threads;
  let living = 0;
  threads.Worker = class extends Worker {
    constructor(...words) {
      if (living >= Number(after))
        throw Object.assign(new Error("Worker initialization failure: EAGAIN"), { code: "ERR_WORKER_INIT_FAILED" });
      super(...words);
      living++;
      this.on("exit", () => living--);
    }
  };
  syncBuiltinESMExports();
}

if (isMainThread && kind === "counts") {
  let started = 0;
  process.on("worker", () => started++);
  process.on("exit", () => fs.writeSync(2, `threads: ${started}\n`));
}

const PULLED = {
  shut: (folder) => fs.chmodSync(folder, 0o500),
  gone: (folder) => fs.rmSync(folder, { recursive: true }),
  replaced: (folder) => {
    fs.rmSync(folder, { recursive: true });
    fs.writeFileSync(folder, "mine");
  },
};

if (isMainThread && kind in PULLED) {
  // SABOTAGE_AT: the folder that is pulled away once the first progress is printed.
  const { write } = process.stderr;
  let done = false;
  process.stderr.write = (text, ...rest) => {
    if (!done && String(text).includes("grid: ")) {
      done = true;
      PULLED[kind](process.env.SABOTAGE_AT);
    }
    return write.call(process.stderr, text, ...rest);
  };
}

if (kind === "homeless") {
  os.homedir = () => {
    throw Object.assign(new Error("A system error occurred: uv_os_homedir returned ENOENT"), {
      code: "ERR_SYSTEM_ERROR",
    });
  };
  syncBuiltinESMExports();
}

if (isMainThread && kind === "terminal") {
  tty.isatty = () => true;
  syncBuiltinESMExports();
}

if (isMainThread && kind === "signal") {
  // SABOTAGE_AT: the file that is just being written when the signal comes.
  const { openSync } = fs;
  fs.openSync = (path, ...rest) => {
    if (basename(String(path)).startsWith(`.${process.env.SABOTAGE_AT}.`)) process.kill(process.pid, "SIGTERM");
    return openSync(path, ...rest);
  };
  syncBuiltinESMExports();
}

if (isMainThread && kind === "undrawn") {
  // SABOTAGE_AT: a part of the paths of the modules that fail when they draw.
  Error.stackTraceLimit = 60;
  for (const [owner, name] of [
    [Array.prototype, "findLastIndex"],
    [String.prototype, "charAt"],
    [Array.prototype, "flatMap"],
  ]) {
    const original = owner[name];
    owner[name] = function (...words) {
      if (new Error().stack.includes(process.env.SABOTAGE_AT)) throw new TypeError("sabotaged\nand more");
      return original.apply(this, words);
    };
  }
}

if (isMainThread && kind === "killed") {
  // SABOTAGE_AT: the folder; SABOTAGE_AFTER: how many steps of writing its files are let through. A step that writes is cut in half.
  const { openSync, writeFileSync, fsyncSync, closeSync, renameSync } = fs;
  const mine = new Set();
  let steps = 0;
  const step = (cut = () => {}) => {
    if (++steps <= Number(after)) return;
    cut();
    process.kill(process.pid, "SIGKILL");
  };
  fs.openSync = (path, ...rest) => {
    const inside = String(path).startsWith(process.env.SABOTAGE_AT);
    if (inside) step();
    const file = openSync(path, ...rest);
    if (inside) mine.add(file);
    return file;
  };
  fs.writeFileSync = (file, content, ...rest) => {
    if (mine.has(file)) step(() => writeFileSync(file, content.slice(0, content.length / 2)));
    return writeFileSync(file, content, ...rest);
  };
  fs.fsyncSync = (file) => {
    if (mine.has(file)) step();
    return fsyncSync(file);
  };
  fs.closeSync = (file) => {
    if (mine.delete(file)) step();
    return closeSync(file);
  };
  fs.renameSync = (from, to) => {
    if (String(to).startsWith(process.env.SABOTAGE_AT)) step();
    return renameSync(from, to);
  };
  syncBuiltinESMExports();
}

if (kind === "clock") {
  const start = Date.now();
  const RealDate = Date;
  // Long before the epoch, and running backwards.
  const now = () => -1e12 - (RealDate.now() - start);
  globalThis.Date = class extends RealDate {
    constructor(...words) {
      super(...(words.length === 0 ? [now()] : words));
    }
    static now() {
      return now();
    }
  };
}
