// A worker that answers each task with itself; variant 1 is a fault returned as data, variant 2 exits, variant 3 hangs,
// variant 4 is slow.
import { setTimeout } from "node:timers/promises";

export default async function work(tasks) {
  const replies = [];
  for (const task of tasks) replies.push(await reply(task));
  return replies;
}

async function reply({ variant, p, d }) {
  if (variant === 1) return { ok: false, message: "reported by the worker", stack: "at the worker" };
  if (variant === 2) process.exit(7);
  if (variant === 3) for (;;);
  if (variant === 4) await setTimeout(30);
  return {
    ok: true,
    result: { values: p, absent: new Uint8Array(p.length), outcome: new Uint8Array(p.length), steps: d[0] },
  };
}
