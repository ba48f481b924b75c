import type { Command } from 'commander';
import type { Console } from './console.ts';
import { MAX_SEED, wholeNumber } from './option-values.ts';
import { simulateText } from './simulate-text.ts';

interface SimulateWords {
  readonly out: string;
  readonly seasons: number;
  readonly teams: number;
  readonly balls: number;
  readonly seed: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function registerSimulate(program: Command, console: Console): void {
  program
    .command('simulate')
    .description('Writes the demo league as files: invented clubs and players, whose true skills lie apart in truth/.')
    .requiredOption('--out <dir>', 'the folder to write into; it is made when it is not there')
    .option('--seasons <n>', 'how many seasons to play', wholeNumber(1, 20), 3)
    .option('--teams <n>', 'how many clubs the league has', wholeNumber(2, 30), 12)
    .option('--balls <n>', 'how many balls in play a season has', wholeNumber(1000, 200_000), 25_000)
    .option('--seed <s>', 'the same seed gives the same league, byte for byte', wholeNumber(0, MAX_SEED), 1)
    .option('--json', 'answer with JSON instead of text')
    .option('--quiet', 'show no progress')
    .addHelpText('after', '\nExample:\n  leatherbook simulate --out demo-files --seasons 1 --seed 7')
    .action(async (words: SimulateWords) => {
      const { simulate } = await import('../commands/simulate.ts');
      const { out, seasons, teams, balls, seed } = words;
      const progress = console.progress(words.quiet === true);
      const report = await simulate({ out, seasons, teams, seed, ballsPerSeason: balls }, { progress });
      console.out(words.json ? `${JSON.stringify(report)}\n` : simulateText(report));
    });
}
