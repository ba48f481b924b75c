import { Writable } from 'node:stream';
import { expect, test } from 'vitest';
import { progressBar } from '../../src/cli/progress-bar.ts';
import { SILENT } from '../../src/progress.ts';

function stream(isTTY: boolean): { stream: NodeJS.WriteStream; text: () => string } {
  let text = '';
  const writable = new Writable({
    write(chunk, _encoding, done) {
      text += String(chunk);
      done();
    },
  });
  return {
    stream: Object.assign(writable, { isTTY, columns: 120 }) as unknown as NodeJS.WriteStream,
    text: () => text,
  };
}

test('a terminal sees the stage, how far it is and the time left', () => {
  const terminal = stream(true);
  let ms = 0;
  const progress = progressBar(terminal.stream, false, () => ms);
  progress.stage('reading balls.csv', 200);
  ms = 5000;
  // Half of it was done by a run before this one.
  progress.advance(100);
  ms += 7000;
  progress.advance(150);
  progress.finish();
  expect(terminal.text()).toContain('reading balls.csv');
  expect(terminal.text()).toContain('100%');
  expect(terminal.text()).toContain('7 s left');
});

test('a stage of unknown length shows a count, a second stage ends the first, and finishing twice is harmless', () => {
  const terminal = stream(true);
  const progress = progressBar(terminal.stream, false);
  progress.stage('first', 0);
  progress.stage('second', 10);
  progress.finish();
  progress.finish();
  progress.advance(3);
  expect(terminal.text()).toContain('first');
  expect(terminal.text()).toContain('second');
});

test('nothing is written to a file, nor to a terminal when quiet', () => {
  expect(progressBar(stream(false).stream, false)).toBe(SILENT);
  expect(progressBar(stream(true).stream, true)).toBe(SILENT);
});
