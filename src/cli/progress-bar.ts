import { SingleBar } from 'cli-progress';
import { type Progress, SILENT } from '../progress.ts';

const LABEL_WIDTH = 26;

/** A bar with the time left, on `stream`; nothing at all when it is not a terminal or the user wants quiet. */
export function progressBar(stream: NodeJS.WriteStream, quiet: boolean): Progress {
  if (quiet || stream.isTTY !== true) return SILENT;
  let bar: SingleBar | null = null;
  let total = 0;
  const finish = () => {
    if (bar !== null && total > 0) bar.update(total);
    bar?.stop();
    bar = null;
  };
  return {
    stage(label, steps) {
      finish();
      total = steps;
      const name = label.padEnd(LABEL_WIDTH);
      bar = new SingleBar({
        stream,
        format: steps > 0 ? `${name} {bar} {percentage}%  {eta_formatted} left` : `${name} {value}`,
        barsize: 30,
        barCompleteChar: '#',
        barIncompleteChar: '.',
        // A handler of its own for Ctrl-C would have to wait for the end of synchronous work: the system's ends it at once.
        gracefulExit: false,
        clearOnComplete: true,
        etaBuffer: 50,
        fps: 8,
      });
      bar.start(steps, 0);
    },
    advance(done) {
      bar?.update(done);
    },
    finish,
  };
}
