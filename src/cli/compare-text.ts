import { type ComparedRating, orderRatings } from '../commands/compare/compare-ratings.ts';
import type { ComparedDefender, Comparison } from '../commands/compare.ts';
import type { Difference, Estimate } from '../ratings/compare.ts';
import { WHOLE_PART } from '../ratings/directions.ts';
import { textTable } from './text-table.ts';

/** Sums that are nothing for everybody are left out, but never these. */
const ALWAYS = ['placement', 'reach', 'finish', 'net'];

/** What `leatherbook compare` prints: each defender, his sums, rates and ratings, and the first less each of the others. */
export function compareText({ defenders, differences, notes, position, season, replicates }: Comparison): string {
  const what = [
    position === null ? 'all positions' : `position ${position}`,
    season === null ? 'all seasons' : String(season),
  ];
  const titles = defenders.map(titleOf);
  const [first] = titles;
  const kinds = Object.keys(defenders[0]!.runs).filter(
    (kind) => ALWAYS.includes(kind) || defenders.some(({ runs }) => runs[kind]!.value !== 0),
  );
  const parts = [
    `${titles.join(', ')}: ${what.join(', ')}\n`,
    columnsOf(titles, 'who', [
      ['id', defenders.map(({ id }) => id)],
      ['positions', defenders.map(({ positions }) => positions.join(', '))],
      ['seasons', defenders.map(({ seasons }) => spanOf(seasons))],
      ['clubs', defenders.map(({ teams }) => teams.join(', '))],
      ['games', defenders.map(({ games }) => String(games))],
      ['plays', defenders.map(({ plays }) => String(plays))],
      ['chances', defenders.map(({ chances }) => chances.toFixed(1))],
      ['fully recorded', defenders.map(({ shareFull }) => `${(100 * shareFull).toFixed(0)} %`)],
    ]),
    columnsOf(
      titles,
      'runs, 80 %',
      kinds.map((kind) => [kind, defenders.map(({ runs }) => estimateText(runs[kind]!))]),
    ),
    columnsOf(
      titles,
      'outs per 100 chances, 80 %',
      Object.keys(defenders[0]!.outsPer100).map((kind) => [
        kind,
        defenders.map(({ outsPer100 }) => estimateText(outsPer100[kind]!)),
      ]),
    ),
  ];
  const rated = ratingRows(defenders);
  if (rated.length > 0) parts.push(columnsOf(titles, 'rating, outs per 100 chances, 80 %', rated));
  differences.forEach(({ runs, outsPer100, ratings }, k) => {
    parts.push(`${first} less ${titles[k + 1]}\n`);
    const rows = kinds.map((kind) => {
      const rate = outsPer100[kind];
      return [
        kind,
        estimateText(runs[kind]!),
        chanceText(runs[kind]!),
        rate === undefined ? null : estimateText(rate),
        rate === undefined ? null : chanceText(rate),
      ];
    });
    for (const rating of ratings) {
      rows.push([`rating: ${labelOf(rating)}`, null, null, estimateText(rating.value), chanceText(rating.value)]);
    }
    const columns = ['', 'runs, 80 %', 'chance above', 'outs per 100, 80 %', 'chance above'];
    parts.push(
      textTable(
        columns.map((name) => ({ name })),
        rows,
      ),
    );
  });
  parts.push(
    [
      `Intervals of sums and rates: ${replicates} replicates of a bootstrap by game. "Chance above" says how often the first is above the`,
      'other in them: what the luck of games leaves open. It knows nothing of other men; a rating does, and is what to expect.',
      ...notes,
      '',
    ].join('\n'),
  );
  return parts.join('\n');
}

const titleOf = ({ id, name }: ComparedDefender) => name ?? id;

function columnsOf(titles: readonly string[], corner: string, rows: readonly (readonly [string, readonly string[]])[]) {
  return textTable(
    [corner, ...titles].map((name) => ({ name })),
    rows.map(([label, cells]) => [label, ...cells]),
  );
}

const labelOf = ({ skill, position, part }: Omit<ComparedRating<unknown>, 'value'>) =>
  `${skill} at ${position}${part === WHOLE_PART ? '' : `, ${part}`}`;

/** Skills, positions and directions that any of them has a rating at. */
function ratingRows(defenders: readonly ComparedDefender[]): [string, string[]][] {
  const labels = new Set(orderRatings(defenders.flatMap(({ ratings }) => ratings)).map(labelOf));
  return [...labels].map((label) => [
    label,
    defenders.map(({ ratings }) => {
      const own = ratings.find((rating) => labelOf(rating) === label);
      return own === undefined ? '' : estimateText(own.value);
    }),
  ]);
}

function spanOf(seasons: readonly number[]): string {
  const [first, last] = [seasons[0], seasons[seasons.length - 1]];
  return first === last ? String(first ?? '') : `${first} to ${last}`;
}

function estimateText({ value, lo80, hi80 }: Estimate): string {
  if (Number.isNaN(value)) return 'too few';
  return Number.isNaN(lo80) ? signed(value) : `${signed(value)} (${signed(lo80)} to ${signed(hi80)})`;
}

function signed(value: number): string {
  const text = value.toFixed(1);
  if (Number(text) === 0) return '0.0';
  return value > 0 ? `+${text}` : text;
}

/** Never nought or one: no number of replicates makes sure. */
function chanceText({ chanceAbove }: Difference): string {
  if (Number.isNaN(chanceAbove)) return '';
  if (chanceAbove < 0.005) return '<.01';
  if (chanceAbove > 0.995) return '>.99';
  return chanceAbove.toFixed(2).replace(/^0/, '');
}
