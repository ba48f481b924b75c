import { type Book, openBook } from '../../src/book/open-book.ts';
import { replaceResults } from '../../src/book/replace-results.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';
import { versionedResults } from './versioned-results.ts';

/**
 * A process of its own for tests that need two of them: `book-child.ts DIR ACCESS ACTION`. It says what it does in lines
 * on standard output; the last one is `done` or the failure as JSON.
 * Actions: `open`; `hold` (until it is killed); `replace` (results 1, 2, 3, ... until it is killed);
 * `fill` (big results, until the disk is full).
 */
const [dir, access, action] = process.argv.slice(2) as [string, 'create' | 'read' | 'write', string];
const say = (line: string) => process.stdout.write(`${line}\n`);

async function act(book: Book): Promise<void> {
  if (action === 'hold') {
    say('holding');
    await new Promise((resolve) => setTimeout(resolve, 60_000));
  }
  if (action === 'replace') {
    for (let version = 1; ; version++) {
      say(`begin ${version}`);
      await replaceResults(book, versionedResults(version, 30_000));
      say(`end ${version}`);
    }
  }
  if (action === 'fill') {
    await replaceResults(book, versionedResults(1, 100));
    say('small');
    await replaceResults(book, versionedResults(2, 2_000_000));
  }
}

try {
  const book = await openBook(dir, { access, command: `leatherbook ${action}`, now: () => new Date() });
  try {
    await act(book);
  } finally {
    await book.close();
  }
  say('done');
} catch (thrown) {
  if (!(thrown instanceof ExpectedFailure)) throw thrown;
  say(JSON.stringify({ kind: thrown.kind, message: thrown.message, remedy: thrown.remedy }));
}
