import { diagnose, didYouMean } from '../../model/index.ts';
import type { Request } from '../arguments.ts';
import { type CommandName, type CommandPage, commands, type OptionPage, options } from '../commandTable.ts';
import { ExitCode } from '../exitCode.ts';
import { fail } from '../failing.ts';
import type { Voice } from '../voice.ts';

const shells = ['bash', 'zsh', 'fish'] as const;

/** A script for the shell, which then completes without starting this program. */
export async function completion(request: Request, voice: Voice): Promise<ExitCode> {
  const [typed = ''] = request.operands;
  const shell = shells.find((it) => it === typed.toLowerCase());
  if (shell === undefined) {
    const facts = { shell: typed, meant: didYouMean(typed, shells) };
    return fail([diagnose('C20', { kind: 'argument', argument: typed }, facts)], 'completion', voice);
  }
  await voice.product(scripts[shell]());
  return ExitCode.fine;
}

const scripts = { bash: bashScript, zsh: zshScript, fish: fishScript };

const pages: readonly (readonly [string, CommandPage])[] = Object.entries(commands);

function optionsOf(command: CommandPage): readonly OptionPage[] {
  return command.options.map((name) => options[name]);
}

function flagsOf(command: CommandPage): string {
  return optionsOf(command)
    .flatMap(({ flag, short }) => [flag, ...(short === undefined ? [] : [short])])
    .join(' ');
}

/** Words that complete the first operand of commands whose operands are no files. */
const operandWords: Partial<Record<CommandName, string>> = {
  completion: shells.join(' '),
  help: Object.keys(commands).join(' '),
  explain: '',
  schema: '',
};

/** What is completed by words of its own, and what by files. */
function bashScript(): string {
  const everyOption: readonly OptionPage[] = Object.values(options);
  const values = everyOption.flatMap(({ flag, choices }) =>
    choices === undefined ? [] : [`    ${flag}) words='${choices.join(' ')}' ;;`],
  );
  const byCommand = pages.map(([name, page]) => {
    // The names are keys of the table of commands.
    const words = operandWords[name as CommandName];
    return `    ${name}) flags='${flagsOf(page)}'${words === undefined ? '' : ` operands='${words}' files=no`} ;;`;
  });
  return `# bash completion for cardwright
_cardwright() {
  local cur=\${COMP_WORDS[COMP_CWORD]} prev=\${COMP_WORDS[COMP_CWORD-1]} words='' flags='' operands='' files=yes line
  COMPREPLY=()
  case $prev in
${values.join('\n')}
    --output|-o) COMPREPLY=($(compgen -f -- "$cur")); return ;;
  esac
  if [[ -n $words ]]; then COMPREPLY=($(compgen -W "$words" -- "$cur")); return; fi
  if (( COMP_CWORD == 1 )) && [[ $cur != -* ]]; then
    COMPREPLY=($(compgen -W '${pages.map(([name]) => name).join(' ')}' -- "$cur")); return
  fi
  case \${COMP_WORDS[1]} in
${byCommand.join('\n')}
    *) flags='--help --version --json --color --quiet' ;;
  esac
  if [[ $cur == -* ]]; then COMPREPLY=($(compgen -W "$flags" -- "$cur")); return; fi
  if [[ $files == no ]]; then COMPREPLY=($(compgen -W "$operands" -- "$cur")); return; fi
  while IFS= read -r line; do COMPREPLY+=("$line"); done < <(compgen -f -X '!*.@(yaml|yml)' -- "$cur"; compgen -d -- "$cur")
}
shopt -s extglob
complete -o filenames -F _cardwright cardwright
`;
}

function zshScript(): string {
  const byCommand = pages.map(([name, page]) => {
    // The names are keys of the table of commands.
    const words = operandWords[name as CommandName];
    const operands = words === undefined ? `'*:file:_files -g "*.(yaml|yml)(-.)"'` : `'*:word:(${words})'`;
    const flags = optionsOf(page).map(
      (it) => `'${it.repeats ? '*' : ''}${it.flag}[${zshQuoted(it.says)}]${zshValue(it)}'`,
    );
    return `    ${name}) _arguments ${[...flags, operands].join(' ')} ;;`;
  });
  const list = pages.map(([name, { summary }]) => `    '${name}:${zshQuoted(summary)}'`);
  return `#compdef cardwright
_cardwright() {
  local -a commands
  commands=(
${list.join('\n')}
  )
  if (( CURRENT == 2 )); then _describe command commands; return; fi
  shift words
  (( CURRENT-- ))
  case $words[1] in
${byCommand.join('\n')}
  esac
}
if [[ $funcstack[1] == _cardwright ]]; then _cardwright "$@"; else compdef _cardwright cardwright; fi
`;
}

function zshValue({ flag, value, choices }: OptionPage): string {
  if (value === undefined) return '';
  if (choices !== undefined) return `:value:(${choices.join(' ')})`;
  return flag === options.output.flag ? ':path:_files' : ':value: ';
}

function zshQuoted(text: string): string {
  return text.replaceAll("'", `'\\''`).replaceAll('[', '\\[').replaceAll(']', '\\]').replaceAll(':', '\\:');
}

function fishScript(): string {
  const quoted = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
  const lines = pages.flatMap(([name, page]) => {
    const inside = quoted(`__fish_seen_subcommand_from ${name}`);
    // The names are keys of the table of commands.
    const words = operandWords[name as CommandName];
    return [
      `complete -c cardwright -n __fish_use_subcommand -a ${name} -d ${quoted(page.summary)}`,
      words === undefined
        ? `complete -c cardwright -n ${inside} -k -a '(__fish_complete_suffix .yaml .yml)'`
        : `complete -c cardwright -n ${inside} -a ${quoted(words)}`,
      ...optionsOf(page).map((it) => {
        const value =
          it.value === undefined
            ? ''
            : it.choices === undefined
              ? ' -r'
              : ` -x -a ${quoted(it.choices.join(' '))}`;
        const short = it.short === undefined ? '' : ` -s ${it.short.slice(1)}`;
        return `complete -c cardwright -n ${inside} -l ${it.flag.slice(2)}${short}${value} -d ${quoted(it.says)}`;
      }),
    ];
  });
  return `complete -c cardwright -f\n${lines.join('\n')}\n`;
}
