/** The public library. What is not named here may change without notice; `leatherbook/models` is the fitting engine. */

export { type Book, type OpenBookOptions, openBook } from './book/open-book.ts';
export { readNames, readPlayTable } from './book/read-play-table.ts';
export type { Cell, Column, ColumnTable, ColumnType, ColumnValues, Store } from './book/store.ts';
export { chooseEvenDraws, type DrawSettings, type DrawWindow, type EvenDraws } from './chances/even-draws.ts';
export { FLAGS, type Flag, flagText, GRADES, type Grade } from './chances/grades.ts';
export { fitGrounderModels, type GrounderModels } from './chances/grounder-models.ts';
export { type Grounders, selectGrounders } from './chances/grounders.ts';
export { allocatePlayTable, type PlayTable, type PlayTableDraft } from './chances/play-table.ts';
export { type BuildOptions, build } from './commands/build.ts';
export type { BuildReport } from './commands/build-report.ts';
export { type ExplainOptions, type Explanation, explain } from './commands/explain.ts';
export { intake, sketch } from './commands/intake.ts';
export { simulate } from './commands/simulate.ts';
export { table } from './commands/table.ts';
export { type UpdateOptions, type UpdateReport, update } from './commands/update.ts';
export { BALL_KINDS, BASES, POSITIONS, RESULTS, SIDES, SURFACES } from './diamond/play-codes.ts';
export { ExpectedFailure, type FailureKind, type FailurePlace } from './expected-failure.ts';
export type { DemoLeague, LeagueOptions } from './league/demo-league.ts';
export { simulateLeague } from './league/simulate-league.ts';
export { actualStarts, type ReplayOptions, type ReplayOutcome, replayBall } from './league/truth/replay-ball.ts';
export type { ClassLedger } from './ledger/class-ledger.ts';
export { ENTRY_KINDS, type EntryKind } from './ledger/entry-kinds.ts';
export { scoreGrounders } from './ledger/score-grounders.ts';
export { type FielderTotals, sumFielders, sumTeams, type TeamTotals } from './ledger/season-totals.ts';
export { shapleyInto } from './ledger/shapley.ts';
export { createRandom, type Random } from './numeric/random.ts';
export { type Progress, SILENT } from './progress.ts';
