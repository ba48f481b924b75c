import { LARGEST_SHIFT } from '../../ledger/balance.ts';
import { type Html, html } from './html.ts';
import { numberOf, percent, plain, type Range, rangeOf, rangeText, signed } from './numbers.ts';
import { rangeBars } from './range-bar.ts';
import type { ReportData, Row } from './read-report.ts';
import { type ReportColumn, reportTable } from './table.ts';

const KINDS = ['placement', 'reach', 'finish', 'turn'] as const;
const MEANINGS: Readonly<Record<(typeof KINDS)[number], string>> = {
  placement: 'What the start position was worth, against where other defences stood for like balls.',
  reach: 'What getting to the ball, or not, changed, from where he stood.',
  finish: 'What he did with the ball once he had it in hand.',
  turn: 'The second out of a possible double play.',
};
const POSITIONS = [
  '',
  'Pitchers',
  'Catchers',
  'First base',
  'Second base',
  'Third base',
  'Shortstop',
  'Left field',
  'Centre field',
  'Right field',
];
const MARKS = ['opening', 'set', 'gathered', 'closed'];

const runsOf = (row: Row, kind: string): Range =>
  rangeOf(numberOf(row[`${kind}_runs`]), numberOf(row[`${kind}_runs_se`]));

/** Runs of a kind with half the width of their 80 % interval. */
function withError(row: Row, kind: string): string {
  const { value, hi } = runsOf(row, kind);
  return Number.isNaN(hi) ? signed(value) : `${signed(value)} ± ${plain(hi - value, 1)}`;
}

const kindColumns = (): ReportColumn<Row>[] =>
  KINDS.map((kind) => ({ head: kind, meaning: MEANINGS[kind], kind, cell: (row) => withError(row, kind) }));

export function howToRead(): Html {
  return html`<dl>
<dt>Marks</dt><dd>The chance that a play ends with an out, as known at four moments: opening (ball, batter and runners), set (where the men stood as well), gathered (who had the ball in hand, where and when), closed (what happened).</dd>
<dt>Entries</dt><dd>The change from one mark to the next, credited to a named man: <span class="placement">placement</span>, <span class="reach">reach</span>, <span class="finish">finish</span>; and the <span class="turn">turn</span>, the second out of a double play. Positive is good for the defence, everywhere.</dd>
<dt>± and intervals</dt><dd>± is half the width of an 80 % interval; two numbers in brackets are its ends. The games of a season are a draw: such an interval holds what they are a draw from four times in five. Two men whose intervals overlap much are not told apart.</dd>
<dt>Ratings</dt><dd>What to expect of a man: extra outs per 100 average chances, drawn toward his position's mean by how much of him was seen. A sum of runs says what happened; a rating is about skill.</dd>
</dl>`;
}

export function balanceSection({ balance, season }: ReportData): Html {
  const classes = [...new Set(balance.map((row) => String(row.ball_class)))];
  const at = (ball: string, what: string) =>
    numberOf(balance.find((row) => row.ball_class === ball && row.mark_or_kind === what)?.total_outs);
  const shifts = balance
    .map((row) => Math.abs(numberOf(row.logit_shift)))
    .filter((shift) => shift > 0.05 && shift < LARGEST_SHIFT);
  const kinds = ['placement', 'reach', 'finish', 'turn', 'ground', 'whole'];
  const having = (names: readonly string[]) =>
    classes.filter((ball) => names.some((name) => !Number.isNaN(at(ball, name))));
  return html`<h2 id="balance">Do the books balance?</h2>
<p>Over a season the marks of a kind of ball add up to the same number of outs, and each kind of entry to nothing: what one defence gains, others lose.</p>
${reportTable(
  `Outs by mark, ${season}`,
  [
    { head: 'balls', isText: true, cell: (ball: string) => ball },
    ...MARKS.map((mark) => ({ head: mark, cell: (ball: string) => plain(at(ball, mark), 1) })),
  ],
  having(['opening']),
)}
${reportTable(
  `Outs by kind of entry, ${season}`,
  [
    { head: 'balls', isText: true, cell: (ball: string) => ball },
    ...kinds.map((kind) => ({ head: kind, cell: (ball: string) => signed(at(ball, kind)) })),
  ],
  having(kinds),
)}
<p>${shifts.length === 0 ? 'No mark had to be moved by more than 0.05 on the logit scale to make them agree.' : html`<span class="warn">${shifts.length} marks had to be moved by more than 0.05 on the logit scale to make them agree, the largest by ${plain(Math.max(...shifts), 2)}: a model is off there, or there are few such plays.</span>`}</p>`;
}

export function teamsSection({ teams, season }: ReportData): Html {
  const bars = rangeBars(
    teams.map((row) => runsOf(row, 'net')),
    'net runs',
  );
  return html`<h2 id="teams">Clubs</h2>
<p>Runs of the season against what an average defence makes of the same balls.</p>
${reportTable(
  `Clubs, ${season}`,
  [
    { head: 'club', isText: true, cell: (row) => String(row.team) },
    { head: 'plays', cell: (row) => plain(numberOf(row.plays)) },
    {
      head: 'full',
      meaning: 'Share of plays of which starts and gather were seen.',
      cell: (row) => percent(numberOf(row.share_full)),
    },
    ...kindColumns(),
    { head: 'net', meaning: 'All entries together.', cell: (row) => withError(row, 'net') },
    { head: bars.head, cell: (row) => bars.draw(runsOf(row, 'net')) },
    {
      head: 'overshifts',
      meaning: 'Plays with three infielders on one side of second base.',
      cell: (row) => plain(numberOf(row.overshift_plays)),
    },
  ],
  teams,
)}`;
}

export function fieldersSection({ fielders, season }: ReportData, minChances: number): Html {
  const enough = fielders.filter((row) => numberOf(row.chances) >= minChances);
  const positions = POSITIONS.flatMap((title, position) => {
    const rows = enough.filter((row) => row.position === position);
    return rows.length === 0 ? [] : [{ title, rows }];
  });
  const bars = rangeBars(
    enough.map((row) => runsOf(row, 'net')),
    'net runs',
  );
  return html`<h2 id="defenders">Defenders</h2>
<p>Men with ${minChances} chances or more, by position: ${enough.length} of ${fielders.length} rows. A chance here is the sum of what an average man would have gathered.</p>
${positions.map(
  ({ title, rows }) => html`<h3>${title}</h3>
${reportTable(
  `${title}, ${season}`,
  [
    { head: 'name', isText: true, cell: (row) => String(row.name ?? row.fielder_id) },
    { head: 'club', isText: true, cell: (row) => String(row.team) },
    { head: 'chances', cell: (row) => plain(numberOf(row.chances)) },
    {
      head: 'full',
      meaning: 'Share of plays of which starts and gather were seen.',
      cell: (row) => percent(numberOf(row.share_full)),
    },
    ...kindColumns(),
    { head: 'net', meaning: 'All entries together, runs.', cell: (row) => withError(row, 'net') },
    { head: bars.head, cell: (row) => bars.draw(runsOf(row, 'net')) },
    {
      head: 'reach rating',
      meaning: 'Extra outs per 100 average chances, 80 % interval.',
      kind: 'reach',
      cell: (row) => ratingText(row, 'reach'),
    },
    {
      head: 'finish rating',
      meaning: 'Extra outs per 100 average chances, 80 % interval.',
      kind: 'finish',
      cell: (row) => ratingText(row, 'finish'),
    },
  ],
  rows,
)}`,
)}`;
}

function ratingText(row: Row, kind: string): string {
  const end = (name: string) => numberOf(row[`${kind}_rating${name}`]);
  return rangeText({ value: end(''), lo: end('_lo80'), hi: end('_hi80') });
}

export function runsSection({ runTable, settings }: ReportData): Html {
  const states = [...new Set(runTable.map((row) => String(row.runners)))];
  const at = (runners: string, outs: number) => runTable.find((row) => row.runners === runners && row.outs === outs);
  const cell = (row: Row | undefined) => {
    if (row === undefined) return '';
    const se = numberOf(row.se);
    return Number.isNaN(se)
      ? plain(numberOf(row.runs), 2)
      : `${plain(numberOf(row.runs), 2)} ± ${plain(rangeOf(0, se).hi, 2)}`;
  };
  const prices: Readonly<Record<string, string>> = {
    flat: 'Every out of this book is worth 0.75 run, so the table had no part in the numbers above.',
    neutral: 'An out of this book is worth what the hit would have been.',
    state: 'An out of this book is worth what the hit would have been in its base-out state.',
  };
  return html`<h2 id="runs">Runs to come</h2>
<p>Expected runs in the rest of a half inning. Source: ${String(runTable[0]?.source ?? 'none')}. ${prices[settings.runs ?? ''] ?? ''}</p>
${reportTable(
  'Run table',
  [
    { head: 'runners', isText: true, cell: (runners: string) => runners },
    ...[0, 1, 2].map((outs) => ({ head: `${outs} out`, cell: (runners: string) => cell(at(runners, outs)) })),
  ],
  states,
)}`;
}

export function trustSection({ reliability, intake, fielders }: ReportData): Html {
  const read = intake.reduce((sum, row) => sum + numberOf(row.read), 0);
  const aside = intake.reduce((sum, row) => sum + numberOf(row.set_aside), 0);
  // Of each kind and position the sweep's row that half of all men reach or more.
  const groups = new Map<string, Row>();
  for (const row of reliability) {
    const key = `${row.kind} ${row.position}`;
    if (!groups.has(key) || numberOf(row.n) >= 10) groups.set(key, row);
  }
  const withoutErrors = fielders.every((row) => Number.isNaN(numberOf(row.net_runs_se)));
  return html`<h2 id="trust">Can these numbers be used?</h2>
<p>${plain(read)} rows were read and ${plain(aside)} of them set aside, each with its reason (table set_aside of the book).</p>
${withoutErrors ? html`<p class="warn">The book was built without replicates: its sums have no intervals.</p>` : null}
${
  groups.size === 0
    ? html`<p>The book is too small to say how well a man's numbers repeat themselves.</p>`
    : reportTable(
        'Split halves: how well one half of a season tells the other',
        [
          { head: 'kind', isText: true, cell: (row) => String(row.kind) },
          { head: 'position', cell: (row) => String(row.position) },
          { head: 'chances at least', cell: (row) => plain(numberOf(row.min_chances)) },
          { head: 'men', cell: (row) => plain(numberOf(row.n)) },
          {
            head: 'correlation (95 %)',
            cell: (row) => rangeText({ value: numberOf(row.r), lo: numberOf(row.lo95), hi: numberOf(row.hi95) }, 2),
          },
          {
            head: 'of the whole season',
            meaning: 'Spearman-Brown',
            cell: (row) => signed(numberOf(row.spearman_brown), 2),
          },
        ],
        [...groups.values()],
      )
}
<ul>
<li>A sum of runs is what happened, not what a man is; his rating is nearer to that, and no rating is better than its interval.</li>
<li>Placement belongs to whoever decided where he stood, and the book does not know who did.</li>
<li>Everybody is compared with the average of this book, not with another league.</li>
<li>Errors of measurement in one park look like skill of those who play there.</li>
</ul>`;
}
