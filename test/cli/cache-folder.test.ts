import { describe, expect, it } from "vitest";
import { cacheFolder, chosenCache } from "../../src/cli/cache-folder.js";

describe("where trials are cached", () => {
  it.each([
    ["XDG_CACHE_HOME where it is set", { XDG_CACHE_HOME: "/var/caches" }, "linux", "/var/caches/gainscape"],
    [
      "not a relative one, as its specification has it",
      { XDG_CACHE_HOME: "caches" },
      "linux",
      "/home/me/.cache/gainscape",
    ],
    ["the user's cache elsewhere", {}, "linux", "/home/me/.cache/gainscape"],
    ["on macOS", {}, "darwin", "/home/me/Library/Caches/gainscape"],
    ["on Windows", { LOCALAPPDATA: "/c/Local" }, "win32", "/c/Local/gainscape/cache"],
    ["on a Windows that does not say", {}, "win32", "/home/me/.cache/gainscape"],
  ] as const)("%s", (_, environment, system, folder) => {
    expect(cacheFolder(environment, system, () => "/home/me")).toBe(folder);
  });

  it("nowhere with --no-cache", () => {
    expect(chosenCache({ cache: false }, () => expect.unreachable())).toBe(undefined);
  });
});
