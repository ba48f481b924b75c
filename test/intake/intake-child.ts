import { intake } from '../../src/commands/intake.ts';
import { ExpectedFailure } from '../../src/expected-failure.ts';

/** A process of its own for tests that kill one or fill its disk: `intake-child.ts BOOK MAPPING`. */
const [book, mapping] = process.argv.slice(2) as [string, string];
const say = (line: string) => process.stdout.write(`${line}\n`);
const progress = { stage: say, advance: (done: number) => say(`row ${done - 1}`), finish() {} };
try {
  await intake({ book, mapping }, { progress, now: () => new Date() });
  say('done');
} catch (thrown) {
  if (!(thrown instanceof ExpectedFailure)) throw thrown;
  say(JSON.stringify({ kind: thrown.kind, message: thrown.message }));
}
