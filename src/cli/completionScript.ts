import type { Command, Option } from "commander";

export type Shell = "bash" | "zsh" | "fish";

/** A command with what can follow it. */
interface Entry {
  name: string;
  description: string;
  options: { flags: string[]; description: string; takes: boolean; choices: string[] }[];
  choices: string[];
}

/**
 * A script that completes commands, options, their choices and file names in a shell. It is made from the program itself, so that it
 * knows what the program knows.
 */
export function completionScript(
  program: Command,
  shell: Shell,
  words: Readonly<Record<string, readonly string[]>>,
): string {
  const entries = program.commands.map((command): Entry => {
    const help: Partial<Option> = {
      short: "-h",
      long: "--help",
      description: "show help",
    };
    return {
      name: command.name(),
      description: command.description(),
      options: [...command.options, help].map((option) => ({
        flags: [option.short, option.long].flatMap((flag) => flag ?? []),
        description: option.description ?? "",
        takes: (option.required ?? false) || (option.optional ?? false),
        choices: option.argChoices ?? [],
      })),
      choices: [...(command.registeredArguments[0]?.argChoices ?? []), ...(words[command.name()] ?? [])],
    };
  });
  return { bash, zsh, fish }[shell](entries);
}

/** In single quotes nothing means anything to a shell. */
const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;

function bash(entries: Entry[]): string {
  const cases = entries.flatMap(({ name, options, choices }) => [
    `    ${name})`,
    "      case $before in",
    ...options.flatMap(({ flags, takes, choices: known }) => {
      if (!takes) return [];
      const reply = known.length > 0 ? `words=${quoted(known.join(" "))}` : "files=1";
      return [`        ${flags.join("|")}) ${reply} ;;`];
    }),
    `        *) words=${quoted([...options.flatMap(({ flags }) => flags), ...choices].join(" "))}; files=1 ;;`,
    "      esac ;;",
  ]);
  return `# bash completion of tg-hydrates: source <(tg-hydrates completion bash)
_tg_hydrates() {
  local now=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} words= files=
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    words=${quoted([...entries.map(({ name }) => name), "help", "--help", "--version"].join(" "))}
  else
    case \${COMP_WORDS[1]} in
${cases.join("\n")}
    esac
  fi
  if [ -n "$words" ]; then mapfile -t COMPREPLY < <(compgen -W "$words" -- "$now"); fi
  if [ -n "$files" ] && [ "\${now#-}" = "$now" ]; then
    local found
    mapfile -t found < <(compgen -f -- "$now")
    COMPREPLY+=("\${found[@]}")
    compopt -o filenames 2>/dev/null
  fi
}
complete -F _tg_hydrates tg-hydrates
`;
}

function zsh(entries: Entry[]): string {
  // In a specification of _arguments brackets and colons part its fields.
  const plain = (text: string): string => text.replace(/[[\]:\\]/g, (sign) => `\\${sign}`);
  const commands = entries.map(
    ({ name, description }) => `    ${quoted(`${name}:${description.replaceAll(":", "\\:")}`)}`,
  );
  const cases = entries.map(({ name, options, choices }) => {
    const lines = options.flatMap(({ flags, description, takes, choices: known }) =>
      flags.map((flag) => {
        const value = takes ? `: :${known.length > 0 ? `(${known.join(" ")})` : "_files"}` : "";
        return `        ${quoted(`${flag}[${plain(description)}]${value}`)} \\`;
      }),
    );
    const rest =
      choices.length > 0 ? `*: :_alternative "words:word:(${choices.join(" ")})" "files:file:_files"` : "*: :_files";
    return `      ${name}) _arguments \\\n${lines.join("\n")}\n        ${quoted(rest)} ;;`;
  });
  return `#compdef tg-hydrates
# zsh completion of tg-hydrates: source <(tg-hydrates completion zsh)
_tg_hydrates() {
  local -a commands=(
${commands.join("\n")}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
  else
    local name=$words[2]
    shift words
    (( CURRENT-- ))
    case $name in
${cases.join("\n")}
    esac
  fi
}
compdef _tg_hydrates tg-hydrates
`;
}

function fish(entries: Entry[]): string {
  const lines = entries.flatMap(({ name, description, options, choices }) => {
    const here = `complete -c tg-hydrates -n '__fish_seen_subcommand_from ${name}'`;
    return [
      `complete -c tg-hydrates -n __fish_use_subcommand -f -a ${name} -d ${fishQuoted(description)}`,
      ...options.map(({ flags, description: words, takes, choices: known }) => {
        const names = flags.map((flag) => (flag.startsWith("--") ? `-l ${flag.slice(2)}` : `-s ${flag.slice(1)}`));
        const value = !takes ? "" : known.length > 0 ? ` -x -a ${fishQuoted(known.join(" "))}` : " -r -F";
        return `${here} ${names.join(" ")} -d ${fishQuoted(words)}${value}`;
      }),
      ...(choices.length > 0 ? [`${here} -a ${fishQuoted(choices.join(" "))}`] : []),
    ];
  });
  return `# fish completion of tg-hydrates: tg-hydrates completion fish | source\n${lines.join("\n")}\n`;
}

/** fish knows two escapes between single quotes. */
function fishQuoted(text: string): string {
  return `'${text.replaceAll("\\", "\\\\").replaceAll("'", "\\'")}'`;
}
