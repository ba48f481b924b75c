import { SingleBar } from 'cli-progress';
import { type Progress, SILENT } from '../progress.ts';

const LABEL_WIDTH = 26;

/**
 * A bar with the time left, on `stream`; nothing at all when it is not a terminal or the user wants quiet. `nowMs` is a clock.
 * What a stage has done when it first says so was not done in this time: work that is taken up where it stopped begins far on.
 */
export function progressBar(stream: NodeJS.WriteStream, quiet: boolean, nowMs = () => performance.now()): Progress {
  if (quiet || stream.isTTY !== true) return SILENT;
  let bar: SingleBar | null = null;
  let total = 0;
  let first: { readonly done: number; readonly atMs: number } | null = null;
  const left = (done: number) => {
    first ??= { done, atMs: nowMs() };
    return done > first.done ? sayLeft(((nowMs() - first.atMs) / (done - first.done)) * (total - done)) : '';
  };
  const finish = () => {
    if (bar !== null && total > 0) bar.update(total);
    bar?.stop();
    bar = null;
  };
  return {
    stage(label, steps) {
      finish();
      total = steps;
      first = null;
      const name = label.padEnd(LABEL_WIDTH);
      bar = new SingleBar({
        stream,
        format: steps > 0 ? `${name} {bar} {percentage}%  {left}` : `${name} {value}`,
        barsize: 30,
        barCompleteChar: '#',
        barIncompleteChar: '.',
        // A handler of its own for Ctrl-C would have to wait for the end of synchronous work: the system's ends it at once.
        gracefulExit: false,
        clearOnComplete: true,
        fps: 8,
      });
      bar.start(steps, 0, { left: '' });
    },
    advance(done) {
      bar?.update(done, { left: left(done) });
    },
    finish,
  };
}

function sayLeft(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  if (seconds < 60) return `${seconds} s left`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 60 ? `${minutes} min left` : `${Math.floor(minutes / 60)} h ${minutes % 60} min left`;
}
