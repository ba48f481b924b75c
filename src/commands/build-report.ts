import { GRADES, type Grade } from '../chances/grades.ts';
import type { PlayTable } from '../chances/play-table.ts';
import { BALL_KINDS, type BallKind } from '../diamond/play-codes.ts';
import type { ClassLedger } from '../ledger/class-ledger.ts';
import type { ClubCorrelation } from '../ledger/overshift-split.ts';
import type { RunMode } from '../ledger/runs/stakes.ts';
import { buildWarnings } from './build-warnings.ts';
import { correlateOvershifts } from './results/overshift-correlation.ts';
import type { BookModels, BookPlays } from './score-book.ts';

/** Plays by grade. */
export type GradeCounts = Readonly<Record<Grade, number>>;

/** What a build or an update has to tell. */
export interface BuildReport {
  readonly book: string;
  /** Plays in the book by ball kind; bunts are counted and not in the ledger. */
  readonly plays: Readonly<Record<BallKind, number>>;
  /** Plays in the ledger by how much is known of them, and the same by ball kind. */
  readonly grades: GradeCounts;
  readonly gradesByKind: Readonly<Record<string, GradeCounts>>;
  readonly entries: number;
  /** Where the runs of a state come from: the book's own innings, or the published table, and why. */
  readonly runTable: string;
  /** Over the clubs of each season: does placement follow the number of overshifts? */
  readonly overshifts: readonly (ClubCorrelation & { readonly season: number })[];
  /** Things to look at before the numbers are used. */
  readonly warnings: readonly string[];
}

export function reportBuild(
  book: string,
  plays: BookPlays,
  models: BookModels,
  runs: RunMode,
  ledgers: readonly ClassLedger[],
): BuildReport {
  return {
    book,
    plays: countKinds(plays.table),
    ...countGrades(ledgers),
    entries: ledgers.reduce((sum, { entries }) => sum + entries.count, 0),
    runTable: describeRunTable(models, runs),
    overshifts: correlateOvershifts(ledgers),
    warnings: [...buildWarnings(ledgers, models)],
  };
}

function countKinds(table: PlayTable): Record<BallKind, number> {
  const plays = Object.fromEntries(BALL_KINDS.map((kind) => [kind, 0])) as Record<BallKind, number>;
  for (let row = 0; row < table.count; row += 1) plays[BALL_KINDS[table.ballKind[row]]] += 1;
  return plays;
}

function countGrades(ledgers: readonly ClassLedger[]): Pick<BuildReport, 'grades' | 'gradesByKind'> {
  const none = () => Object.fromEntries(GRADES.map((grade) => [grade, 0])) as Record<Grade, number>;
  const grades = none();
  const gradesByKind: Record<string, Record<Grade, number>> = {};
  for (const { plays, grade } of ledgers) {
    for (let at = 0; at < plays.count; at += 1) {
      const kind = BALL_KINDS[plays.table.ballKind[plays.row[at]]];
      gradesByKind[kind] ??= none();
      gradesByKind[kind][GRADES[grade[at]]] += 1;
      grades[GRADES[grade[at]]] += 1;
    }
  }
  return { grades, gradesByKind };
}

function describeRunTable({ values }: BookModels, runs: RunMode): string {
  const { source, reason } = values.table;
  return runs === 'flat' ? 'none: every out is worth the same' : `${source}: ${reason}`;
}
