import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Progress } from '../../progress.ts';
import type { DemoLeague, LeagueOptions } from '../demo-league.ts';
import { mappingText } from './mapping-text.ts';
import { fieldTimeLines, peopleLines } from './people-lines.ts';
import { playLines, startLines } from './play-lines.ts';
import { ballLines, seedsText, skillLines, TRUTH_README } from './truth-lines.ts';
import { writeFailure, writeLines } from './write-lines.ts';

/**
 * Writes a league into a folder: the contract's tables, a mapping file, and `truth/` apart. Files of the same names are
 * replaced. Answers the names in the order written; the mapping comes last, when what it names is there.
 * @throws ExpectedFailure with the path when something cannot be written.
 */
export async function writeLeague(
  dir: string,
  league: DemoLeague,
  options: LeagueOptions,
  progress: Progress,
): Promise<string[]> {
  const spans = seasonSpans(league);
  const files: [string, () => Iterable<string>][] = [];
  for (const { season, first, end } of spans) {
    files.push([`plays-${season}.csv`, () => playLines(league, first, end)]);
    files.push([`starts-${season}.csv`, () => startLines(league, first, end)]);
  }
  files.push(['people.csv', () => peopleLines(league)]);
  files.push(['field_time.csv', () => fieldTimeLines(league)]);
  files.push(['truth/people.csv', () => skillLines(league)]);
  files.push(['truth/balls.csv.gz', () => ballLines(league)]);
  files.push(['truth/seeds.json', () => [seedsText(options, league)]]);
  files.push(['truth/README.md', () => [TRUTH_README.trimEnd()]]);
  files.push(['mapping.yaml', () => [mappingText(spans.map(({ season }) => season))]]);
  const truth = join(dir, 'truth');
  await mkdir(truth, { recursive: true }).catch((error: unknown) => {
    throw writeFailure(error, truth);
  });
  progress.stage('writing files', files.length);
  let done = 0;
  for (const [name, lines] of files) {
    await writeLines(join(dir, name), lines());
    done += 1;
    progress.advance(done);
  }
  progress.finish();
  return files.map(([name]) => name);
}

function seasonSpans({ plays }: DemoLeague): { season: number; first: number; end: number }[] {
  const spans: { season: number; first: number; end: number }[] = [];
  for (let row = 0; row < plays.count; row += 1) {
    const last = spans.at(-1);
    if (last?.season === plays.season[row]) last!.end = row + 1;
    else spans.push({ season: plays.season[row]!, first: row, end: row + 1 });
  }
  return spans;
}
