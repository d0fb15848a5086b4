// What gainscape completion prints, as the shell reads it.
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, run } from "./command.js";

describe("gainscape completion", () => {
  it("lets bash complete commands, and the options of each; where there is nothing, files", async () => {
    const { code, stdout } = await run("completion", "bash");
    expect(code).toBe(0);
    const folder = emptyFolder();
    writeFileSync(join(folder, "completions"), stdout);
    /** What bash offers for these words, the last of which is being typed. */
    const offered = (...words: string[]): string[] => {
      const typed = words.map((word) => `'${word}'`).join(" ");
      const ask = `source ./completions; COMP_WORDS=(gainscape ${typed}); COMP_CWORD=${words.length}; _gainscape; printf '%s\\n' "\${COMPREPLY[@]}"`;
      return execFileSync("bash", ["-c", ask], { cwd: folder, encoding: "utf8" }).trim().split("\n").filter(Boolean);
    };
    expect(offered("swe")).toEqual(["sweep"]);
    expect(offered("")).toEqual(expect.arrayContaining(["new", "init", "sweep", "gate", "completion"]));
    expect(offered("gate", "--ba")).toEqual(["--baselines"]);
    expect(offered("check", "--ba")).toEqual([]);
    expect(offered("sweep", "sweeps/fir")).toEqual([]);
    expect(stdout).toContain("complete -o default -F _gainscape gainscape"); // files where no word fits
  });

  it("knows every command that --help lists, in each shell", async () => {
    const help = (await run("--help")).stdout;
    const commands = [...help.slice(help.indexOf("Commands:")).matchAll(/^ {2}([a-z]+) /gm)]
      .map(([, name]) => name)
      .filter((name) => name !== "help");
    expect(commands.length).toBeGreaterThan(10);
    const [zsh, fish] = [(await run("completion", "zsh")).stdout, (await run("completion", "fish")).stdout];
    for (const name of commands) {
      expect(zsh).toContain(`      ${name}) words="`);
      expect(fish).toContain(`complete -c gainscape -n __fish_use_subcommand -f -a ${name} -d '`);
    }
  });

  it("refuses another shell in one line", async () => {
    const { code, stdout, stderr } = await run("completion", "tcsh");
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^error: command-argument value 'tcsh' is invalid .*bash, zsh, fish/);
  });
});
