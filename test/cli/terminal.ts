// A command on a terminal of its own, by script(1): what it draws is waited for, then typed to.
import { spawn, spawnSync } from "node:child_process";
import { resolve } from "node:path";
import { shellLine } from "../../src/base/shell-words.js";
import { MAIN } from "./command.js";

export const HAS_TERMINALS = process.platform !== "win32" && spawnSync("script", ["--version"]).status === 0;

/** What is typed once a text has been drawn after the last one. */
export type Turn = readonly [drawn: string, keys: string];

export interface OnTerminal {
  readonly code: number | null;
  /** Without control sequences. */
  readonly drawn: string;
}

/** Ends the command where a text is never drawn. */
export function onTerminal(folder: string, words: readonly string[], turns: readonly Turn[]): Promise<OnTerminal> {
  const line = shellLine([process.execPath, resolve(MAIN), ...words]);
  const child = spawn("script", ["-qec", line, "/dev/null"], { cwd: folder, stdio: ["pipe", "pipe", "inherit"] });
  const left = [...turns];
  let all = "";
  let fresh = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    all += text;
    fresh += text;
    const [next] = left;
    // the last line of a frame: before it the prompt does not listen yet
    const seen = plain(fresh);
    const found = next === undefined ? -1 : seen.indexOf(next[0]);
    if (next === undefined || found === -1 || !seen.includes("└", seen.includes("▲") ? 0 : found)) return;
    left.shift();
    fresh = "";
    child.stdin.write(next[1]);
  });
  return new Promise((done) => {
    child.on("close", (code) => done({ code, drawn: plain(all) }));
  });
}

const plain = (text: string): string => text.replace(/\u001b\[[0-9;?]*[a-zA-Z]/g, "");
