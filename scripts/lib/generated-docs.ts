import type { Command } from 'commander';
import { makeProgram } from '../../electron/service/cli/main.ts';
import { keysMarkdown } from '../../renderer/commands/keys-table.ts';

function leaves(command: Command, before: string): { usage: string; description: string }[] {
  if (command.commands.length > 0)
    return command.commands.flatMap((c) => leaves(c, `${before}${command.name()} `));
  const args = command.registeredArguments.map((a) => (a.variadic ? `<${a.name()}...>` : `<${a.name()}>`));
  const options = command.options
    .filter((o) => !['--library', '--json'].includes(o.long ?? ''))
    .map((o) => (o.mandatory ? o.flags : `[${o.flags}]`));
  return [
    { usage: [before + command.name(), ...args, ...options].join(' '), description: command.description() },
  ];
}

/** Every command with its arguments, as a Markdown table. */
export function commandsMarkdown(): string {
  const rows = makeProgram(() => {}).commands.flatMap((c) => leaves(c, ''));
  return [
    '| command | what it does |',
    '|---|---|',
    ...rows.map((r) => `| \`${r.usage.replaceAll('|', '\\|')}\` | ${r.description} |`),
  ].join('\n');
}

/** A text with the parts between its markers written anew. */
export function withGenerated(text: string): string {
  return replace(replace(text, 'keys', keysMarkdown()), 'commands', commandsMarkdown());
}

function replace(text: string, name: string, body: string): string {
  const [start, end] = [`<!-- ${name} -->`, `<!-- /${name} -->`];
  const from = text.indexOf(start);
  const to = text.indexOf(end);
  if (from < 0 || to < from) throw new Error(`The text has no place for ${name}.`);
  return `${text.slice(0, from + start.length)}\n\n${body}\n\n${text.slice(to)}`;
}
