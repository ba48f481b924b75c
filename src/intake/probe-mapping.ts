import { quoteText } from '../book/sql-text.ts';
import type { Store } from '../book/store.ts';
import { ExpectedFailure } from '../expected-failure.ts';
import type { Mapping } from './mapping.ts';

/**
 * Lets the engine look at every pattern and date format once: it knows other ones than JavaScript does, and a word about
 * them is better had before the files are read.
 */
export async function probeMapping(store: Store, mapping: Mapping): Promise<void> {
  for (const section of mapping.sections) {
    for (const [column, rule] of section.rows.flatMap(({ columns }) => [...columns])) {
      if (rule.kind !== 'pattern' && rule.kind !== 'date') continue;
      const [what, text] = rule.kind === 'pattern' ? ['pattern', rule.pattern] : ['date format', rule.format];
      const call = rule.kind === 'pattern' ? 'regexp_matches' : 'try_strptime';
      try {
        await store.rows(`SELECT ${call}('', ${quoteText(text)}) AS probe`);
      } catch (thrown) {
        if (thrown instanceof ExpectedFailure) throw thrown;
        throw new ExpectedFailure(
          'data',
          `${mapping.file}: ${section.path}.${column}: the ${what} '${text}' cannot be used: ${(thrown as Error).message.split('\n')[0]}`,
          rule.kind === 'pattern'
            ? 'Patterns are regular expressions without look-ahead, look-behind and back references.'
            : 'Use %d day, %m month, %Y year; docs/mapping.md has the list.',
          { file: mapping.file, column },
          { cause: thrown },
        );
      }
    }
  }
}
