import { ARRIVAL_EDGES, GAP_EDGES, offGroups, type Quality, type ReachCell } from '../chances/trust/quality.ts';
import { TRAVEL_ANSWERERS } from '../chances/trust/travel-errors.ts';
import { placeWords, RULES, USES } from '../commands/trust/verdict.ts';
import type { TrustReport } from '../commands/trust.ts';
import type { CalibrationGroup } from '../numeric/calibration.ts';
import { type TextCell, textTable } from './text-table.ts';

const SHOWN_REASONS = 8;
const SHOWN_PLACES = 3;
/** A cell of residuals with fewer rows says nothing to the eye. */
const FEWEST_IN_CELL = 30;

const ANSWER_WORDS = {
  yes: 'can be used',
  care: 'can be used with care: look at what is named below first',
  no: 'should not be used as they are',
} as const;

/** What `leatherbook trust` prints; ends with the verdict. */
export function trustText(report: TrustReport): string {
  const parts = [
    `Can the numbers of ${report.book} be used? ${report.grounders} grounders, ${report.games} games dealt into ${report.folds} folds.\n`,
    heading('The fits of the last build'),
    fitsText(report),
    heading('On games that the models had not seen'),
    "Log loss and Brier score, less is better. Lead: log loss of the additive model less the model's, in thousandths, and\nits standard error by game.\n",
    qualityText(report),
    travelText(report),
    heading('Calibration by tenths of like chances (* off beyond chance and beyond .02)'),
    ...report.quality.filter(({ position }) => position === 0).map(decilesText),
    heading('Calibration by place'),
    placesText(report),
    heading('Reach by gap and arrival: gathered less expected, per 100 chances'),
    `Gap in feet, + to his left; arrival in seconds from the value given. Cells of fewer than ${FEWEST_IN_CELL} chances are blank.\n`,
    ...report.residuals
      .filter(({ position }) => position >= 3)
      .map(({ position, cells }) => residualText(position, cells)),
    heading('Shifts that balanced the marks (* large)'),
    balanceText(report),
    heading('What the data lack'),
    dataText(report),
    heading('Verdict'),
    verdictText(report),
  ];
  return parts.join('\n');
}

function heading(title: string): string {
  return `${title}\n${'-'.repeat(title.length)}`;
}

function fitsText({ models }: TrustReport): string {
  const rows = models.map(({ name, edf, record }) => [
    name,
    record.rows,
    edf,
    record.iterations,
    record.stopped,
    record.gradientNorm.toExponential(0),
    record.notes.join('; '),
  ]);
  return textTable(
    [
      { name: 'model' },
      { name: 'rows' },
      { name: 'edf', decimals: 1 },
      { name: 'iterations' },
      { name: 'stopped' },
      { name: 'gradient' },
      { name: 'notes' },
    ],
    rows,
  );
}

const whoOf = ({ question, position }: Quality) => (position === 0 ? question : `${question} ${position}`);

function qualityText({ quality }: TrustReport): string {
  const rows = quality.map((each) => [
    whoOf(each),
    each.rows,
    each.logLoss.constant,
    each.logLoss.bins,
    each.logLoss.additive,
    each.logLoss.model,
    1000 * each.better.additive.mean,
    1000 * each.better.additive.se,
    each.brier.model,
    each.parts.reliability,
    each.parts.resolution,
    each.parts.uncertainty,
  ]);
  return textTable(
    [
      { name: 'question' },
      { name: 'rows' },
      { name: 'constant', decimals: 4 },
      { name: 'table', decimals: 4 },
      { name: 'additive', decimals: 4 },
      { name: 'model', decimals: 4 },
      { name: 'lead', decimals: 1, signed: true },
      { name: 'se', decimals: 1 },
      { name: 'Brier', decimals: 4 },
      { name: 'reliability', decimals: 4 },
      { name: 'resolution', decimals: 4 },
      { name: 'uncertainty', decimals: 4 },
    ],
    rows,
  );
}

function travelText({ travel }: TrustReport): string {
  if (travel === null) return 'Travel time has no model: the physical rule serves.\n';
  const rms = TRAVEL_ANSWERERS.map((name) => `${name === 'bins' ? 'table' : name} ${travel.rmsS[name].toFixed(3)}`);
  return `Travel time, root mean square error of ${travel.count} times in seconds: ${rms.join(', ')}; model's mean error ${travel.biasS.toFixed(3)}\n`;
}

const share = (value: number) => value.toFixed(3).replace(/^0/, '');
const isOff = (group: CalibrationGroup) => (offGroups([group]).length > 0 ? '*' : '');

function decilesText(quality: Quality): string {
  const rows = quality.deciles.map((group) => [
    group.n,
    share(group.expected),
    share(group.observed),
    `${share(group.lo95)} to ${share(group.hi95)}`,
    isOff(group),
  ]);
  return textTable(
    [{ name: quality.question }, { name: 'expected' }, { name: 'observed' }, { name: '95 % interval' }, { name: '' }],
    rows,
  );
}

function placesText({ quality }: TrustReport): string {
  const rows = quality
    .filter(({ position }) => position === 0)
    .map(({ question, places }) => {
      const known = places.filter(({ n }) => n >= RULES.fewestInPlace);
      const off = offGroups(known);
      const worst = off
        .slice(0, SHOWN_PLACES)
        .map((cell) => `${placeWords(cell)}: ${share(cell.expected)} said, ${share(cell.observed)} seen`);
      return [question, known.length, off.length, worst.join('; ')];
    });
  return textTable([{ name: 'question' }, { name: 'places' }, { name: 'off' }, { name: 'worst' }], rows);
}

function residualText(position: number, cells: readonly ReachCell[]): string {
  const at = new Map(cells.map((cell) => [`${cell.gapFromFt} ${cell.arrivalFromS}`, cell]));
  const gaps = GAP_EDGES.slice(0, -1);
  const rows: TextCell[][] = ARRIVAL_EDGES.slice(0, -1).map((arrival) => [
    arrival.toFixed(1),
    ...gaps.map((gap) => {
      const cell = at.get(`${gap} ${arrival}`);
      return cell === undefined || cell.n < FEWEST_IN_CELL ? null : 100 * (cell.observed - cell.expected);
    }),
  ]);
  const columns = gaps.map((gap, k) => ({ name: `${gap}..${GAP_EDGES[k + 1]}`, decimals: 1, signed: true }));
  return textTable(
    [{ name: `at ${position}` }, ...columns],
    rows.filter((row) => row.slice(1).some((cell) => cell !== null)),
  );
}

function balanceText({ balance }: TrustReport): string {
  const rows = balance.map(({ season, grade, plays, opening, set, gathered, large }) => {
    const cell = (mark: 'opening' | 'set' | 'gathered', value: number, has: boolean) =>
      has ? `${value.toFixed(3)}${large.includes(mark) ? '*' : ' '}`.padStart(8) : '';
    return [
      season,
      grade,
      plays,
      cell('opening', opening, true),
      cell('set', set, grade === 'full'),
      cell('gathered', gathered, grade !== 'whole'),
    ];
  });
  return textTable(
    [
      { name: 'season' },
      { name: 'grade' },
      { name: 'plays' },
      { name: 'opening' },
      { name: 'set' },
      { name: 'gathered' },
    ],
    rows,
  );
}

function dataText({ data }: TrustReport): string {
  const of = (counts: TrustReport['data']['grades']) =>
    counts.map(({ name, plays }) => [name, plays, `${((100 * plays) / data.marked).toFixed(1)} %`]);
  const plays = [{ name: 'grade or flag' }, { name: 'grounders' }, { name: 'share' }];
  const log = `${data.read} rows read, ${data.loaded} loaded, ${data.setAside} set aside${data.setAside === 0 ? '' : ':'}\n`;
  const reasons = data.reasons
    .slice(0, SHOWN_REASONS)
    .map(({ rows, table, column, reason }) => [rows, table, column, reason]);
  const more = data.reasons.length - reasons.length;
  return [
    textTable(plays, [...of(data.grades), ...of(data.flags)]),
    log +
      (reasons.length === 0
        ? ''
        : textTable([{ name: 'rows' }, { name: 'table' }, { name: 'column' }, { name: 'reason' }], reasons)) +
      (more > 0 ? `and ${more} more reasons: leatherbook table set_aside\n` : ''),
  ].join('\n');
}

function verdictText({ verdict, seconds }: TrustReport): string {
  const { answer, uses, findings } = verdict;
  const byAnswer = USES.flatMap((use) => {
    const own = uses[use];
    return own === undefined ? [] : [`${use}: ${{ yes: 'yes', care: 'with care', no: 'no' }[own]}`];
  });
  const looks = findings.map(
    ({ text, bearsOn, answer: own }) => `- ${own === 'no' ? 'No: ' : ''}${text} (${bearsOn.join(', ')})`,
  );
  return [
    `These numbers ${ANSWER_WORDS[answer]}.`,
    `For ${byAnswer.join('; ')}.`,
    ...(answer === 'no'
      ? []
      : [
          'Good for: what a season of a club or a position was made of, what made one play, and which men to look at closer.',
        ]),
    "Not for: a man's skill, or a difference of a few outs between two men. How well sums repeat is not measured here.",
    ...(looks.length === 0 ? ['Nothing stands out.'] : ['Look first at:', ...looks]),
    '',
    `Found out in ${seconds.toFixed(0)} s.`,
    '',
  ].join('\n');
}
