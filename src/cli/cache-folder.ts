// Where trials are cached between runs: the user's cache folder and not the project's, since a cached trial depends on
// its content alone. Every checkout, branch and sweep then shares it, and no project needs a line to ignore it.
import { homedir } from "node:os";
import { isAbsolute, join } from "node:path";
import { fileProblem, InputError } from "../base/problem.js";
import { openCache, type TrialCache } from "../flow/cache.js";

export interface CacheChoice {
  /** A folder, or false: no cache. */
  readonly cache?: string | false;
  readonly cacheLimit?: number; // MiB
}

/** XDG_CACHE_HOME where it is set, else what each system has for this purpose. InputError where there is no home. */
export function cacheFolder(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  system: NodeJS.Platform = process.platform,
  home: () => string = homedir,
): string {
  const { XDG_CACHE_HOME: shared = "", LOCALAPPDATA: local = "" } = environment;
  if (isAbsolute(shared)) return join(shared, "gainscape");
  if (system === "win32" && local !== "") return join(local, "gainscape", "cache");
  const own = homeOf(home);
  return system === "darwin" ? join(own, "Library", "Caches", "gainscape") : join(own, ".cache", "gainscape");
}

/** A user without an account, as in many containers, has no home unless HOME says so. */
function homeOf(home: () => string): string {
  try {
    const folder = home();
    if (isAbsolute(folder)) return folder;
  } catch {} // the system knows none
  const message = "no home folder to put it in; set HOME or XDG_CACHE_HOME, or give --cache FOLDER or --no-cache";
  throw new InputError([fileProblem("cache", message)]);
}

/** The cache that the options choose, or none. */
export function chosenCache(
  { cache, cacheLimit }: CacheChoice,
  onNote: (line: string) => void,
): TrialCache | undefined {
  if (cache === false) return undefined;
  const cap = cacheLimit === undefined ? {} : { cap: cacheLimit * 2 ** 20 };
  return openCache({ folder: cache ?? cacheFolder(), onNote, ...cap });
}
