import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../electron/service/cli/main.ts';
import { BUILT_IN_FIELDS } from '../../football/vocabulary/fields.ts';
import { commandsMarkdown, withGenerated } from '../../scripts/lib/generated-docs.ts';

const readme = readFileSync('README.md', 'utf8');

describe('the README', () => {
  it('says of keys and commands what the program does (scripts/write-docs.ts writes it)', () => {
    expect(withGenerated(readme)).toBe(readme);
  });

  it('lists every command, and each one says what it is for', () => {
    const table = commandsMarkdown();
    for (const command of makeProgram(() => {}).commands) {
      expect(command.description()).not.toBe('');
      expect(table).toContain(`\`${command.name()}`);
    }
  });

  it('carries the cautions', () => {
    for (const word of [
      'student athletes',
      'consent',
      'Film exchange',
      'Safety over scheme',
      'do not promise',
    ]) {
      expect(readme).toContain(word);
    }
  });
});

describe('fields', () => {
  it('each say in a sentence what they hold', () => {
    for (const field of BUILT_IN_FIELDS) expect(field.help, field.key).toMatch(/^[A-Z].*\.$/);
  });
});
