// gainscape completion: what a shell needs to complete commands and options; files it completes by itself.
import type { Command } from "commander";

export const SHELLS = ["bash", "zsh", "fish"] as const;
export type Shell = (typeof SHELLS)[number];

/** The script of a shell for every command of the program and every option of each that its help shows. */
export function completionScript(program: Command, shell: Shell): string {
  const commands = program.commands.map((command) => ({
    name: command.name(),
    about: command.description(),
    options: command
      .createHelp()
      .visibleOptions(command)
      .flatMap(({ long, description }) => (long === undefined ? [] : [{ long, about: description }])),
  }));
  return shell === "fish" ? fish(commands) : bash(commands, shell === "zsh");
}

interface Completed {
  readonly name: string;
  readonly about: string;
  readonly options: readonly { readonly long: string; readonly about: string }[];
}

/** zsh reads bash's completions once it has been told to. */
const bash = (commands: readonly Completed[], inZsh: boolean): string => `${
  inZsh ? "autoload -U +X compinit bashcompinit && compinit && bashcompinit\n" : ""
}_gainscape() {
  local word="\${COMP_WORDS[COMP_CWORD]}" words=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    words="${commands.map(({ name }) => name).join(" ")}"
  elif [ "\${word:0:1}" = "-" ]; then
    case "\${COMP_WORDS[1]}" in
${commands.map(({ name, options }) => `      ${name}) words="${options.map(({ long }) => long).join(" ")}" ;;`).join("\n")}
    esac
  fi
  COMPREPLY=($(compgen -W "$words" -- "$word"))
}
complete -o default -F _gainscape gainscape
`;

const fish = (commands: readonly Completed[]): string =>
  commands
    .flatMap(({ name, about, options }) => [
      `complete -c gainscape -n __fish_use_subcommand -f -a ${name} -d ${quoted(about)}`,
      ...options.map(
        (option) =>
          `complete -c gainscape -n "__fish_seen_subcommand_from ${name}" -l ${option.long.slice(2)} -d ${quoted(option.about)}`,
      ),
    ])
    .concat("")
    .join("\n");

/** In fish's single quotes only these two mean something. */
const quoted = (text: string): string => `'${text.replace(/[\\']/g, "\\$&")}'`;
