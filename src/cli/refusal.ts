// Errors by which the system refuses resources, in words that say what to set. Imports nothing: it is needed where much
// else could not be loaded.

const REASONS: Readonly<Record<string, string>> = {
  EMFILE: "too few files may be open at once (EMFILE); raise the limit, as with ulimit -n 1024",
  ENFILE: "the system has no file handle left (ENFILE); end other programs or raise its limit",
  ENOMEM: "no memory left (ENOMEM); end other programs, raise the limit, or ask for fewer --workers",
  ERR_WORKER_OUT_OF_MEMORY: "no memory left for a worker; end other programs, or ask for fewer --workers",
  ERR_WORKER_INIT_FAILED: "no thread could be started; raise the limit, as with ulimit -u, or ask for fewer --workers",
  EAGAIN: "no thread could be started (EAGAIN); raise the limit, as with ulimit -u, or ask for fewer --workers",
};

export const NO_WORKING_FOLDER = "the working folder is gone; change into a folder that is there";

/** What the system refused, with what to set; null where the error is none of these. */
export function refusal(error: unknown): string | null {
  if (typeof error !== "object" || error === null) return null;
  const { code, syscall } = error as { readonly code?: unknown; readonly syscall?: unknown };
  if (code === "ENOENT" && syscall === "uv_cwd") return NO_WORKING_FOLDER;
  return typeof code === "string" && Object.hasOwn(REASONS, code) ? (REASONS[code] as string) : null;
}
