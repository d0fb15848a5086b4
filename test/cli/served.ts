// Commands of which only the outcome is tested: one after another, in one process that a test file starts once.
import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import { resolve } from "node:path";
import { afterAll } from "vitest";

export interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

interface Asked {
  readonly words: readonly string[];
  readonly folder: string;
  readonly environment: NodeJS.ProcessEnv;
}

interface Server {
  readonly child: ChildProcess;
  /** Rejects once the process has ended. */
  readonly gone: Promise<never>;
}

const MODULE = resolve("test/cli/command-server.mjs");

let server: Server | null = null;
let last: Promise<unknown> = Promise.resolve();

afterAll(async () => {
  server?.child.disconnect();
  await server?.gone.catch(() => {});
  server = null;
});

function started(): Server {
  const child = fork(MODULE, { execArgv: [], stdio: ["ignore", "ignore", "inherit", "ipc"] });
  const gone = once(child, "exit").then(([code]) => {
    throw new Error(`the command server ended with ${code}`);
  });
  gone.catch(() => {});
  return { child, gone };
}

/** What a process of its own would answer; waits for the commands asked for before. */
export function served(asked: Asked): Promise<Ended> {
  const answered = last.then(async () => {
    server ??= started();
    server.child.send(asked);
    const [answer] = await Promise.race([once(server.child, "message"), server.gone]);
    return answer as Ended;
  });
  last = answered.catch(() => {});
  return answered;
}
