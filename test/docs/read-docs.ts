import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Command } from 'commander';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export const readDoc = (path: string): string => readFileSync(`${ROOT}${path}`, 'utf8');

/** The `npx leatherbook` lines of the blocks marked `sh`, as lists of words without those two. */
export function commandLines(markdown: string): string[][] {
  const blocks = [...markdown.matchAll(/^```sh\n([\s\S]*?)^```/gm)].map((match) => match[1] ?? '');
  return blocks
    .flatMap((block) => block.replaceAll(/\\\n\s*/g, ' ').split('\n'))
    .filter((line) => line.startsWith('npx leatherbook'))
    .map((line) => splitWords(line.replace(/\s+(\||#|>).*$/, '')).slice(2));
}

const splitWords = (line: string) =>
  [...line.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map((match) => match[1] ?? match[2] ?? match[3] ?? '');

/** What is wrong with a command line, as far as parsing can tell; empty when nothing is. */
export function commandLineFaults(program: Command, words: readonly string[]): string[] {
  const name = words[0] ?? '';
  if (name.startsWith('--')) return ['--help', '--version'].includes(name) ? [] : [`there is no option ${name}`];
  const command = program.commands.find((candidate) => candidate.name() === name);
  if (command === undefined) return [`there is no command ${name}`];
  if (words.includes('--help')) return [];
  const { operands, unknown } = command.parseOptions([...words.slice(1)]);
  const missing = command.options.filter(
    (option) => option.mandatory && command.getOptionValue(option.attributeName()) === undefined,
  );
  const { registeredArguments } = command;
  const required = registeredArguments.filter((argument) => argument.required).length;
  const most = registeredArguments.some((argument) => argument.variadic)
    ? Number.POSITIVE_INFINITY
    : registeredArguments.length;
  return [
    ...unknown.map((word) => `${name} does not understand ${word}`),
    ...missing.map((option) => `${name} needs ${option.long}`),
    ...(operands.length < required ? [`${name} needs ${required} arguments`] : []),
    ...(operands.length > most ? [`${name} takes no argument ${operands.at(-1)}`] : []),
  ];
}

/** Text under the heading `## NAME`, up to the next heading of that rank; null without one. */
export function section(markdown: string, name: string): string | null {
  const parts = markdown.split(/^## /m).slice(1);
  const found = parts.find((part) => part.split('\n', 1)[0]?.trim() === name);
  return found ?? null;
}

/** Names of commands and options (`--seed`) that have no paragraph: a section for each command that names its options. */
export function undocumented(program: Command, guide: string): string[] {
  return program.commands.flatMap((command) => {
    const text = section(guide, command.name());
    if (text === null) return [command.name()];
    return command.options
      .map((option) => option.long ?? '')
      .filter((long) => !new RegExp(`\`${long}(?![a-z-])`).test(text))
      .map((long) => `${command.name()} ${long}`);
  });
}

/** Targets of relative links, without their anchors. */
export function relativeLinks(markdown: string): string[] {
  return [...markdown.matchAll(/\]\(([^)#\s]+)(#[^)]*)?\)/g)]
    .map((match) => match[1] ?? '')
    .filter((target) => !/^[a-z]+:/.test(target));
}
