import { ALL_COMMANDS } from './all-commands.ts';
import { formatChord, parseChord } from './chord.ts';
import type { CommandDefinition, CommandTable } from './command.ts';

const PLACE_WORDS: Readonly<Record<string, string>> = {
  'log-line': 'on the log line',
  'log-line-empty': 'on the empty log line',
};

function print(chords: readonly string[] | undefined, quote: (key: string) => string): string {
  return (chords ?? []).map((chord) => quote(formatChord(parseChord(chord), false))).join(' ');
}

/** The keys of a command in words, as `S Space; in text Alt+S`. */
export function keysInWords(command: CommandDefinition, quote = (key: string) => key): string {
  const parts = [print(command.keys, quote)];
  const inText = print(command.keysInText, quote);
  if (inText && inText !== parts[0]) parts.push(`in text ${inText}`);
  const places = new Map<string, string[]>();
  for (const [place, chords] of Object.entries(command.keysIn ?? {})) {
    const keys = print(chords, quote);
    places.set(keys, [...(places.get(keys) ?? []), place]);
  }
  for (const [keys, at] of places) {
    const words = at.includes('log-line') ? PLACE_WORDS['log-line'] : (PLACE_WORDS[at[0]!] ?? at[0]);
    parts.push(`${words} ${keys}`);
  }
  return parts.filter(Boolean).join('; ');
}

/** Commands by group in the order of the table. */
export function commandGroups(table: CommandTable): Map<string, [string, CommandDefinition][]> {
  const groups = new Map<string, [string, CommandDefinition][]>();
  for (const [name, command] of Object.entries(table))
    groups.set(command.group, [...(groups.get(command.group) ?? []), [name, command]]);
  return groups;
}

/** The table of keys as Markdown, for the README; a test holds the two together. */
export function keysMarkdown(table: CommandTable = ALL_COMMANDS): string {
  const code = (key: string) => `\`${key === '`' ? '` ` `' : key}\``;
  return [...commandGroups(table)]
    .map(([group, commands]) => {
      const rows = commands.map(
        ([, command]) =>
          `| ${keysInWords(command, code)} | ${command.label}${command.help ? `. ${command.help}` : ''} |`,
      );
      return [`### ${group}`, '', '| keys | what they do |', '|---|---|', ...rows].join('\n');
    })
    .join('\n\n');
}
