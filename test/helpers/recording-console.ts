import type { Console } from '../../src/cli/console.ts';
import { SILENT } from '../../src/progress.ts';

/** A console that keeps what was written; its clock stands still. */
export function recordingConsole(): Console & { readonly written: { out: string; err: string } } {
  const written = { out: '', err: '' };
  return {
    written,
    out: (text) => {
      written.out += text;
    },
    err: (text) => {
      written.err += text;
    },
    progress: () => SILENT,
    isTerminal: false,
    stopped: () => Promise.resolve(),
    now: () => new Date('2026-01-02T03:04:05Z'),
  };
}
