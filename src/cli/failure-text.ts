import type { ExpectedFailure, FailurePlace } from '../expected-failure.ts';

const VALUE_LENGTH = 80;

/** What went wrong, where, and what to do, a line each; the place is left out when nothing of it is known. */
export function failureText(failure: ExpectedFailure): string {
  const where = placeText(failure.place);
  const lines = [`leatherbook: ${plain(failure.message)}`];
  if (where !== '') lines.push(`  where:  ${where}`);
  lines.push(`  to do:  ${failure.remedy}`, '');
  return lines.join('\n');
}

/** The apology for a bug; the stack is for those who asked for it. */
export function bugText(error: unknown, debug: boolean): string {
  const message = error instanceof Error ? error.message : String(error);
  const lines = [`leatherbook: sorry, this is a bug of leatherbook and not a fault of yours: ${message}`];
  if (debug) lines.push(error instanceof Error ? (error.stack ?? '') : '');
  else lines.push('  to do:  run it again with LEATHERBOOK_DEBUG=1 set and report what it prints.');
  lines.push('');
  return lines.join('\n');
}

function placeText({ file, line, column, value }: FailurePlace): string {
  const parts: string[] = [];
  if (file !== undefined) parts.push(plain(line === undefined ? file : `${file}:${line}`));
  else if (line !== undefined) parts.push(`line ${line}`);
  if (column !== undefined) parts.push(`column ${plain(column)}`);
  if (value !== undefined) parts.push(`value ${JSON.stringify(shorten(value))}`);
  return parts.join(', ');
}

/** Control characters of somebody's data must not reach the terminal; line feeds are ours. */
const plain = (text: string) => text.replace(/[^\P{Cc}\n]/gu, '·');

const shorten = (text: string) => (text.length <= VALUE_LENGTH ? text : `${text.slice(0, VALUE_LENGTH)}...`);
