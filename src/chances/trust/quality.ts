import {
  type CalibrationGroup,
  calibrationByGroup,
  equalGroups,
  type ScoredBrier,
  scoreBrier,
} from '../../numeric/calibration.ts';
import { brierScore, type ClusteredMean, clusteredMean, logLoss, logLossOf } from '../../numeric/scores.ts';
import { type Answerer, type Answers, type Question, RIVALS, type Rival } from './answers.ts';
import { BEARING_EDGES, cellOf, SPEED_EDGES } from './plainer-models.ts';

/** A piece of the field, or of the range of balls; edges in degrees and in feet or mph, as `across` says. */
export interface PlaceCell extends CalibrationGroup {
  readonly bearingFrom: number;
  readonly bearingTo: number;
  /** What the second edges measure: feet from home, or exit speed where nobody has a place yet (opening, set). */
  readonly across: 'distanceFt' | 'speedMph';
  readonly from: number;
  readonly to: number;
}

/** A piece of the plane of gap and arrival. */
export interface ReachCell extends CalibrationGroup {
  readonly gapFromFt: number;
  readonly gapToFt: number;
  readonly arrivalFromS: number;
  readonly arrivalToS: number;
}

/** How good one model's answers were on balls that it had not seen. */
export interface Quality {
  readonly question: Question;
  readonly position: number;
  readonly rows: number;
  /** Share that happened. */
  readonly share: number;
  readonly logLoss: Readonly<Record<Answerer, number>>;
  readonly brier: Readonly<Record<Answerer, number>>;
  /** Log loss of each plainer model less the model's, with its standard error by game; positive is good for the model. */
  readonly better: Readonly<Record<Rival, ClusteredMean>>;
  /** The model's Brier score in parts. */
  readonly parts: ScoredBrier;
  /** Ten groups of like chances, small to large. */
  readonly deciles: readonly CalibrationGroup[];
  readonly places: readonly PlaceCell[];
}

export const DECILES = 10;
const GROUND_EDGES = [0, 40, 70, 100, 115, 130, 145, 160, 220] as const;
const AIR_EDGES = [0, 60, 110, 160, 200, 240, 280, 320, 420] as const;
/** What a place is: a bearing, and a distance where the ball has come to somebody or down, else its speed. */
const ACROSS: Readonly<Record<Question, { readonly across: PlaceCell['across']; readonly edges: readonly number[] }>> =
  {
    opening: { across: 'speedMph', edges: SPEED_EDGES },
    set: { across: 'speedMph', edges: SPEED_EDGES },
    reach: { across: 'distanceFt', edges: GROUND_EDGES },
    promise: { across: 'distanceFt', edges: GROUND_EDGES },
    finish: { across: 'distanceFt', edges: GROUND_EDGES },
    turn: { across: 'distanceFt', edges: GROUND_EDGES },
    pivot: { across: 'distanceFt', edges: GROUND_EDGES },
    'air opening': { across: 'distanceFt', edges: AIR_EDGES },
    'air reach': { across: 'distanceFt', edges: AIR_EDGES },
    kept: { across: 'distanceFt', edges: AIR_EDGES },
    'extra bases': { across: 'speedMph', edges: SPEED_EDGES },
    triple: { across: 'speedMph', edges: SPEED_EDGES },
  };
export const GAP_EDGES = [-60, -40, -25, -15, -8, -3, 3, 8, 15, 25, 40, 60] as const;
export const ARRIVAL_EDGES = [0, 0.6, 0.9, 1.2, 1.5, 1.8, 2.2, 2.6, 3.2, 6] as const;

/** Scores the answers to one question. Needs at least one row. */
export function qualityOf(answers: Answers): Quality {
  const { question, position, count, outcome, model } = answers;
  return {
    question,
    position,
    rows: count,
    share: outcome.reduce((sum, value) => sum + value, 0) / count,
    logLoss: eachAnswerer((name) => logLoss(answers[name], outcome)),
    brier: eachAnswerer((name) => brierScore(answers[name], outcome)),
    better: Object.fromEntries(RIVALS.map((rival) => [rival, lead(answers, rival)])) as Record<Rival, ClusteredMean>,
    parts: scoreBrier(model, outcome, DECILES),
    deciles: calibrationByGroup(model, outcome, equalGroups(model, DECILES), DECILES).filter(({ n }) => n > 0),
    places: byPlace(answers),
  };
}

function eachAnswerer(score: (name: Answerer) => number): Record<Answerer, number> {
  return { model: score('model'), constant: score('constant'), bins: score('bins'), additive: score('additive') };
}

function lead(answers: Answers, rival: Rival): ClusteredMean {
  const { outcome, model, game } = answers;
  const other = answers[rival];
  return clusteredMean(
    outcome.map((y, i) => logLossOf(other[i], y) - logLossOf(model[i], y)),
    game,
  );
}

function byPlace(answers: Answers): PlaceCell[] {
  const { across, edges } = ACROSS[answers.question];
  const columns = BEARING_EDGES.length - 1;
  const cell = cellNumbers(answers.bearingDeg, BEARING_EDGES, answers[across], edges);
  return calibrationByGroup(answers.model, answers.outcome, cell, columns * (edges.length - 1))
    .map((group, k) => ({
      ...group,
      across,
      bearingFrom: BEARING_EDGES[k % columns],
      bearingTo: BEARING_EDGES[(k % columns) + 1],
      from: edges[Math.floor(k / columns)],
      to: edges[Math.floor(k / columns) + 1],
    }))
    .filter(({ n }) => n > 0);
}

/** What reach leaves over, by gap and arrival. Cells without a row are left out. */
export function reachResiduals(answers: Answers): ReachCell[] {
  const columns = GAP_EDGES.length - 1;
  const cell = cellNumbers(answers.gapFt, GAP_EDGES, answers.arrivalS, ARRIVAL_EDGES);
  return calibrationByGroup(answers.model, answers.outcome, cell, columns * (ARRIVAL_EDGES.length - 1))
    .map((group, k) => ({
      ...group,
      gapFromFt: GAP_EDGES[k % columns],
      gapToFt: GAP_EDGES[(k % columns) + 1],
      arrivalFromS: ARRIVAL_EDGES[Math.floor(k / columns)],
      arrivalToS: ARRIVAL_EDGES[Math.floor(k / columns) + 1],
    }))
    .filter(({ n }) => n > 0);
}

function cellNumbers(
  x: Float64Array,
  xEdges: readonly number[],
  y: Float64Array,
  yEdges: readonly number[],
): Int32Array {
  return Int32Array.from(x, (value, i) => {
    const column = cellOf(xEdges, value);
    const row = cellOf(yEdges, y[i]);
    return column < 0 || row < 0 ? -1 : row * (xEdges.length - 1) + column;
  });
}

/** Groups that are further off than chance explains (3 standard errors) and than matters (0.02), the farthest first. */
export function offGroups<G extends CalibrationGroup>(groups: readonly G[]): G[] {
  return groups
    .filter(({ z, observed, expected }) => Math.abs(z) > 3 && Math.abs(observed - expected) > 0.02)
    .sort((a, b) => Math.abs(b.z) - Math.abs(a.z));
}
