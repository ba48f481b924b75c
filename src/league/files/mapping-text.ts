import { FIELD_TIME_COLUMNS, PEOPLE_COLUMNS } from './people-lines.ts';
import { PLAY_COLUMNS, START_COLUMNS } from './play-lines.ts';

/** The mapping file of the written league: every contract column is named as itself. */
export function mappingText(seasons: readonly number[]): string {
  const table = (name: string, files: readonly string[], columns: readonly string[]) =>
    [
      `  ${name}:`,
      `    files: [${files.join(', ')}]`,
      '    columns:',
      ...columns.map((column) => `      ${column}: ${column}`),
    ].join('\n');
  return [
    'tables:',
    table(
      'plays',
      seasons.map((season) => `plays-${season}.csv`),
      PLAY_COLUMNS,
    ),
    table(
      'starts',
      seasons.map((season) => `starts-${season}.csv`),
      START_COLUMNS,
    ),
    table('people', ['people.csv'], PEOPLE_COLUMNS),
    table('field_time', ['field_time.csv'], FIELD_TIME_COLUMNS),
  ].join('\n');
}
