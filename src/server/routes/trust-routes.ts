import type { Hono } from 'hono';
import type { TrustReport } from '../../commands/trust.ts';
import { MARK_CALIBRATION_TABLES, markCalibration } from '../../commands/views/mark-calibration.ts';
import { MISSING_DATA_TABLES, missingData } from '../../commands/views/missing-data.ts';
import type { CalibrationAnswer, MissingAnswer, TrustAnswer } from '../answers.ts';
import type { Workbench } from '../workbench.ts';

/** What the page Trust rests on. */
export function addTrustRoutes(app: Hono, { source, work }: Workbench): void {
  app.get('/api/calibration', async (context) => {
    const copy = await source.current();
    const marks = await copy.cached('mark calibration', async () =>
      markCalibration(await copy.tables(...MARK_CALIBRATION_TABLES)),
    );
    return context.json<CalibrationAnswer>({ version: copy.version, marks });
  });

  app.get('/api/missing', async (context) => {
    const copy = await source.current();
    const missing = await copy.cached('missing data', async () =>
      missingData(await copy.tables(...MISSING_DATA_TABLES)),
    );
    return context.json<MissingAnswer>({ version: copy.version, ...missing });
  });

  app.get('/api/trust', async (context) => {
    const found = work.resultOf('trust');
    const { version } = await source.current();
    return context.json<TrustAnswer>({
      report: found === null ? null : (found.result as TrustReport),
      is_old: found !== null && found.version !== version,
    });
  });
}
