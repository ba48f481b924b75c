import type { DemoReport } from '../commands/demo.ts';
import { SHOWN_KINDS } from '../commands/demo-tables.ts';
import { type TextColumn, textTable } from './text-table.ts';

const OUTS: Omit<TextColumn, 'name'> = { decimals: 1, signed: true };

/** One standard error of the runs before it. */
const ERROR = { name: '±', key: 'runs_se', decimals: 1 };

const KIND_TITLES = {
  placement: 'Placement, where he stood',
  reach: 'Reach, how he got to the ball',
  finish: 'Finish, what he did with it',
} as const;

/** What `leatherbook demo` prints: the main tables, one play, the time each step took, and what to try next. */
export function demoText(report: DemoReport, explanation: string): string {
  const { tables, book } = report;
  const parts = [heading('The books balance: outs over the league, by season'), balanceText(tables.balance)];
  for (const kind of SHOWN_KINDS) {
    parts.push(heading(`${KIND_TITLES[kind]}: best and worst of ${tables.season}`));
    parts.push(
      pick(tables.fielders[kind], [
        { name: 'name' },
        { name: 'team' },
        { name: 'position' },
        { name: 'chances', decimals: 0 },
        { name: 'outs', ...OUTS },
        { name: 'runs', ...OUTS },
        ERROR,
      ]),
    );
  }
  parts.push(heading(`Clubs in ${tables.season}`));
  parts.push(
    pick(tables.teams, [
      { name: 'team' },
      { name: 'plays' },
      ...['placement', 'reach', 'finish', 'turn', 'ground', 'net'].map((kind) => ({ name: `${kind}_outs`, ...OUTS })),
      { name: 'net_runs', ...OUTS },
      { ...ERROR, key: 'net_runs_se' },
    ]),
  );
  parts.push(heading('One play, explained'), explanation);
  if (report.warnings.length > 0) {
    parts.push(heading('Look at these before you use the numbers'), `${report.warnings.join('\n')}\n`);
  }
  parts.push(heading('Time taken'));
  parts.push(
    textTable(
      [{ name: 'step' }, { name: 'seconds', decimals: 1 }],
      report.steps.map((s) => [s.name, s.seconds]),
    ),
  );
  parts.push(heading('What to try next'), nextText(book, tables.playToExplain));
  return parts.join('\n');
}

type Rows = DemoReport['tables']['balance'];

/** `key`: the value's name in the row, where the heading is another. */
const pick = (rows: Rows, columns: readonly (TextColumn & { readonly key?: string })[]) =>
  textTable(
    columns,
    rows.map((row) => columns.map(({ name, key = name }) => row[key] ?? null)),
  );

const heading = (text: string) => `${text}\n${'-'.repeat(text.length)}`;

const MARKS = ['opening', 'set', 'gathered', 'closed'];
const KINDS = ['placement', 'reach', 'finish', 'turn', 'ground', 'whole'];

/** Sums of the marks of fully recorded plays, which agree within a season and ball kind, and of the kinds, which are zero. */
function balanceText(rows: Rows): string {
  const full = rows.filter((row) => String(row.ball_class).endsWith('full'));
  const largest = Math.max(0, ...full.map((row) => Math.abs(Number(row.logit_shift)) || 0)).toFixed(3);
  return [
    pivot(full, MARKS, { decimals: 1 }),
    pivot(rows, KINDS, OUTS),
    `To make the marks of fully recorded plays agree they were shifted by ${largest} at most, on the logit scale.\n`,
  ].join('\n');
}

/** One row a season and class of balls, one column a name. */
function pivot(rows: Rows, names: readonly string[], style: Omit<TextColumn, 'name'>): string {
  const shown = rows.filter((row) => names.includes(String(row.mark_or_kind)));
  const labelOf = (row: Rows[number]) => `${row.season} ${row.ball_class}`;
  const labels = [...new Set(shown.map(labelOf))];
  const cell = (label: string, name: string) =>
    shown.find((row) => labelOf(row) === label && row.mark_or_kind === name)?.total_outs ?? null;
  return textTable(
    [{ name: 'season' }, ...names.map((name) => ({ name, ...style }))],
    labels.map((label) => [label, ...names.map((name) => cell(label, name))]),
  );
}

function nextText(book: string, playId: string): string {
  return [
    `npx leatherbook table fielders --book ${book} --position 6`,
    `npx leatherbook table teams --book ${book} --format csv --out teams.csv`,
    `npx leatherbook explain ${playId} --book ${book}`,
    'docs/guide.md shows the way from your own files; docs/limitations.md says what the numbers cannot tell.',
    '',
  ].join('\n');
}
