import { existsSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Command } from 'commander';
import { expect, test } from 'vitest';
import { createProgram } from '../../src/cli/program.ts';
import { recordingConsole } from '../helpers/recording-console.ts';
import { commandLineFaults, commandLines, ROOT, readDoc, relativeLinks, undocumented } from './read-docs.ts';

const program = () => createProgram(recordingConsole());

test('README gives the two commands to begin with', () => {
  const lines = readDoc('README.md').split('\n');
  expect(lines).toContain('npm ci && npm run demo');
  expect(lines).toContain('npm ci && npm test');
});

test.each(['README.md', 'docs/guide.md'])('every leatherbook command in %s parses', (path) => {
  const lines = commandLines(readDoc(path));
  expect(lines.length).toBeGreaterThan(3);
  for (const words of lines) expect(commandLineFaults(program(), words), words.join(' ')).toEqual([]);
});

test('every command and every option has its paragraph in docs/guide.md', () => {
  expect(program().commands.length).toBeGreaterThan(4);
  expect(undocumented(program(), readDoc('docs/guide.md'))).toEqual([]);
});

test('every command has an example in its help and a sentence for each option', () => {
  for (const command of program().commands) {
    const console = recordingConsole();
    command.configureOutput({ writeOut: console.out });
    command.outputHelp();
    expect(console.written.out).toMatch(/\nExamples?:\n {2}leatherbook /);
    for (const option of command.options) expect(option.description, `${command.name()} ${option.long}`).not.toBe('');
  }
});

test('every link between the documents leads somewhere', () => {
  const docs = readdirSync(join(ROOT, 'docs'), { recursive: true, encoding: 'utf8' }).map((name) => join('docs', name));
  const pages = ['README.md', 'CONTRIBUTING.md', 'CHANGELOG.md', 'bench/README.md', ...docs].filter((path) =>
    path.endsWith('.md'),
  );
  for (const page of pages) {
    for (const target of relativeLinks(readDoc(page))) {
      expect(existsSync(join(ROOT, dirname(page), target)), `${page} links to ${target}`).toBe(true);
    }
  }
});

test('the checks themselves notice a missing command, option, value and paragraph', () => {
  const small = new Command('leatherbook');
  small
    .command('mow')
    .requiredOption('--lawn <name>', 'which')
    .argument('<how>', 'how')
    .action(() => {});
  const lines = commandLines(
    '```sh\nnpx leatherbook mow short \\\n  --lawn "the big one" # soon\n```\n```\nnpx leatherbook no\n```\n',
  );
  expect(lines).toEqual([['mow', 'short', '--lawn', 'the big one']]);
  expect(commandLineFaults(small, lines[0]!)).toEqual([]);
  expect(commandLineFaults(small, ['rake'])).toEqual(['there is no command rake']);
  const fresh = new Command('leatherbook');
  fresh
    .command('mow')
    .requiredOption('--lawn <name>', 'which')
    .argument('<how>', 'how')
    .action(() => {});
  expect(commandLineFaults(fresh, ['mow', '--fast'])).toEqual([
    'mow does not understand --fast',
    'mow needs --lawn',
    'mow needs 1 arguments',
  ]);
  expect(undocumented(small, '## rake\n`--lawn`\n')).toEqual(['mow']);
  expect(undocumented(small, '## mow\n`--lawns`\n')).toEqual(['mow --lawn']);
  expect(undocumented(small, '## mow\n`--lawn NAME`: which\n')).toEqual([]);
});
