import type { Answerer } from '../chances/trust/answers.ts';
import type { TrustReport } from '../commands/trust.ts';
import type { CalibrationGroup } from '../numeric/calibration.ts';
import { type CsvRow, csvRows } from './csv-rows.ts';

/** Parts of a report that are tables. */
export const TRUST_PARTS = ['scores', 'fits', 'tenths', 'places', 'gap_arrival', 'shifts'] as const;
export type TrustPart = (typeof TRUST_PARTS)[number];

const ANSWERERS: readonly Answerer[] = ['model', 'constant', 'bins', 'additive'];

/** One part of the report as CSV, its first row the names; numbers as exact as they are, nothing where there is none. */
export function trustCsv(report: TrustReport, part: TrustPart): string {
  return csvRows(ROWS[part](report));
}

const ROWS: Readonly<Record<TrustPart, (report: TrustReport) => readonly CsvRow[]>> = {
  scores: ({ quality }) =>
    quality.flatMap(({ question, position, rows, share, logLoss, brier, better, parts }) =>
      ANSWERERS.map((answerer) => {
        const lead = answerer === 'model' ? null : better[answerer];
        const own = answerer === 'model' ? parts : null;
        return {
          question,
          position,
          answerer: answerer === 'bins' ? 'table' : answerer,
          rows,
          share,
          log_loss: logLoss[answerer],
          brier: brier[answerer],
          lead: lead?.mean ?? null,
          lead_se: lead?.se ?? null,
          reliability: own?.reliability ?? null,
          resolution: own?.resolution ?? null,
          uncertainty: own?.uncertainty ?? null,
        };
      }),
    ),
  fits: ({ models }) =>
    models.map(({ name, terms, coefficients, edf, record }) => ({
      model: name,
      terms: terms.join(' + '),
      rows: record.rows,
      cells: record.cells ?? null,
      coefficients,
      edf,
      iterations: record.iterations,
      stopped: record.stopped,
      deviance: record.deviance,
      gradient: record.gradientNorm,
      smoothing_gradient: record.smoothingGradient,
      notes: record.notes.join('; '),
    })),
  tenths: ({ quality }) =>
    quality.flatMap(({ question, position, deciles }) =>
      deciles.map((group, k) => ({ question, position, tenth: k + 1, ...groupCells(group) })),
    ),
  places: ({ quality }) =>
    quality.flatMap(({ question, position, places }) =>
      places.map((place) => ({
        question,
        position,
        bearing_from: place.bearingFrom,
        bearing_to: place.bearingTo,
        across: place.across === 'speedMph' ? 'exit_speed_mph' : 'distance_ft',
        from: place.from,
        to: place.to,
        ...groupCells(place),
      })),
    ),
  gap_arrival: ({ residuals }) =>
    residuals.flatMap(({ position, cells }) =>
      cells.map((cell) => ({
        position,
        gap_from_ft: cell.gapFromFt,
        gap_to_ft: cell.gapToFt,
        arrival_from_s: cell.arrivalFromS,
        arrival_to_s: cell.arrivalToS,
        ...groupCells(cell),
      })),
    ),
  shifts: ({ balance }) =>
    balance.map(({ season, grade, plays, opening, set, gathered, large }) => ({
      season,
      grade,
      plays,
      opening,
      set,
      gathered,
      large: large.join(' '),
    })),
};

function groupCells({ n, expected, observed, lo95, hi95, z }: CalibrationGroup) {
  return { n, expected, observed, lo95, hi95, z };
}
