// What passes between the pool and its workers. Errors travel as data: a thrown one would lose all but its message.
import type { Task, TaskResult } from "./task.js";

export type WorkerRequest = Task;

export type WorkerReply =
  | { readonly ok: true; readonly result: TaskResult }
  | { readonly ok: false; readonly message: string; readonly stack: string };
