import type { ExplainedEntry, Explanation } from '../commands/explain.ts';
import {
  againstEvenWords,
  bearingWords,
  OUTS_WORDS,
  POSITION_NAMES,
  runnersWords,
  wayToBallWords,
} from '../ledger/play-words.ts';
import { textTable } from './text-table.ts';

const KIND_WORDS: Readonly<Record<string, string>> = { ground: 'grounder' };
const chance = (value: number) => (Number.isNaN(value) ? 'unknown' : value.toFixed(3).replace(/^0/, ''));
const feet = (value: number) => `${value.toFixed(0)} ft`;
const known = (value: number, text: (value: number) => string) => (Number.isNaN(value) ? 'not recorded' : text(value));

/** A play's staircase for somebody who doubts it: what happened, the marks, each man's part, and what the opening averaged over. */
export function explanationText(e: Explanation): string {
  return [headText(e), marksText(e), gatherText(e), defendersText(e), entriesText(e), openingText(e), gradeText(e)]
    .filter((part) => part !== '')
    .join('\n');
}

function headText(e: Explanation): string {
  const where = bearingWords(e.bearingDeg);
  const bearing = known(
    e.bearingDeg,
    (value) => `${value.toFixed(1)} degrees${where === undefined ? '' : `, ${where}`}`,
  );
  return [
    `Play ${e.playId}: ${KIND_WORDS[e.ballKind] ?? e.ballKind}, ${e.date}, inning ${e.inning}, ${OUTS_WORDS[e.outsBefore]}, ${runnersWords(e.bases)}`,
    `${e.battingTeam} batting against ${e.fieldingTeam}; ${e.batter} at bat, side ${e.batterSide}, ${known(e.batterToFirstS, (v) => `${v.toFixed(2)} s`)} to first`,
    `Ball: ${known(e.exitSpeedMph, (v) => `${v.toFixed(0)} mph`)}, bearing ${bearing}, launch ${known(e.launchAngleDeg, (v) => `${v.toFixed(0)} degrees`)}`,
    `Infield: ${infieldWords(e.alignment)}`,
    `Result: ${e.result.replaceAll('_', ' ')}`,
    '',
  ].join('\n');
}

function infieldWords({ name, rightSideInfielders, twoASide }: Explanation['alignment']): string {
  const verdict =
    twoASide.legal === null
      ? `not judged by the two-a-side rule: ${twoASide.reason}`
      : twoASide.legal
        ? 'legal under the two-a-side rule'
        : `not legal under the two-a-side rule: ${twoASide.reason}`;
  return name === null ? verdict : `${name}, ${rightSideInfielders} on the right side; ${verdict}`;
}

/** The staircase: each mark, and what was gained or lost on the way to the next. */
function marksText(e: Explanation): string {
  const { marks, grade } = e;
  const lines: (readonly [string, string, string])[] = [
    [
      'opening',
      chance(marks.opening),
      `what an average defence makes of this ball (direct fit: ${chance(marks.openingDirect)})`,
    ],
  ];
  if (grade === 'full') lines.push(['set', chance(marks.set), 'with the men where they stood']);
  if (grade !== 'whole') lines.push(['gathered', chance(marks.gathered), gatheredWords(e)]);
  lines.push(['closed', marks.closed === 1 ? '1' : '0', marks.closed === 1 ? 'an out was made' : 'no out was made']);
  return `Chance of an out\n${textTable(
    [{ name: 'mark' }, { name: 'chance' }, { name: 'what is known by then' }],
    lines.map((line) => [...line]),
  )}`;
}

function gatheredWords({ ballKind, gather, touchedBy, marks }: Explanation): string {
  if (ballKind !== 'ground') {
    if (marks.gathered === 1) return 'caught';
    return touchedBy > 0 ? `touched by ${POSITION_NAMES[touchedBy]} and dropped` : 'it fell';
  }
  if (gather !== null) return 'with the ball in hand';
  return touchedBy > 0 ? `touched by ${POSITION_NAMES[touchedBy]}, gathered by nobody` : 'gathered by nobody';
}

function gatherText({ gather }: Explanation): string {
  if (gather === null) return '';
  const who = gather.name ?? `the ${POSITION_NAMES[gather.position]}`;
  const where = Number.isNaN(gather.xFt)
    ? 'at a place not recorded'
    : `${feet(Math.hypot(gather.xFt, gather.yFt))} from home`;
  const when = Number.isNaN(gather.timeS) ? ', time not recorded' : ` after ${gather.timeS.toFixed(2)} s`;
  const base =
    gather.target === ''
      ? ''
      : ` to ${gather.target}${gather.targetRecorded ? '' : ' (not recorded: the best base by the model)'}`;
  const left = Number.isNaN(gather.timeLeftS) ? '' : `, ${gather.timeLeftS.toFixed(2)} s left before the runner`;
  const throwing = Number.isNaN(gather.throwFt) ? '' : `; ${feet(gather.throwFt)}${base}${left}`;
  return `In hand: ${who} (${gather.position}) ${where}${when}${throwing}\n`;
}

function defendersText({ defenders }: Explanation): string {
  if (defenders.length === 0) return '';
  const onGround = defenders.some(({ gapFt }) => !Number.isNaN(gapFt));
  const rows = defenders.map((d) => [
    d.position,
    d.name ?? POSITION_NAMES[d.position],
    wayToBallWords(d),
    `${d.arrivalS.toFixed(2)} s`,
    chance(d.reach),
    d.reach > 0 ? chance(d.promise) : '',
    chance(d.setWithoutHim),
    againstEvenWords(d),
  ]);
  return `Each man, in the order in which they come to the ball\n${textTable(
    [
      { name: 'pos' },
      { name: 'name' },
      { name: onGround ? 'ball passes' : 'run to it' },
      { name: 'time he had' },
      { name: 'his chance' },
      { name: 'out if he has it' },
      { name: 'set mark without him' },
      { name: 'stood, against the even spot' },
    ],
    rows,
  )}`;
}

/** Entries smaller than this would print as nothing and are counted instead. */
const SHOWN_OUTS = 0.0005;

function entriesText({ entries, marks }: Explanation): string {
  const own = entries.filter(({ kind }) => kind !== 'turn');
  const turns = entries.filter(({ kind }) => kind === 'turn');
  const left = own.filter(({ outs }) => Math.abs(outs) < SHOWN_OUTS).length;
  const change = (marks.closed - marks.opening).toFixed(3);
  const parts = [
    `Entries (they add up to closed less opening: ${change} outs, ${marks.stakeRuns.toFixed(2)} runs an out)`,
    entryTable(own).trimEnd(),
  ];
  if (left > 0) parts.push(`(${left} more of less than ${SHOWN_OUTS} outs; who is not named had no part in it)`);
  if (turns.length > 0) parts.push('', 'A second out was possible; its entries are apart', entryTable(turns).trimEnd());
  return `${parts.join('\n')}\n`;
}

function entryTable(entries: readonly ExplainedEntry[]): string {
  const shown = entries.filter(({ outs }) => Math.abs(outs) >= SHOWN_OUTS);
  const rows = shown.map((entry) => [entry.position, entry.name, entry.kind, entry.outs, entry.runs]);
  const sum = (value: 'outs' | 'runs') => entries.reduce((total, entry) => total + entry[value], 0);
  return textTable(
    [
      { name: 'pos' },
      { name: 'name' },
      { name: 'kind' },
      { name: 'outs', decimals: 3, signed: true },
      { name: 'runs', decimals: 3, signed: true },
    ],
    [...rows, [null, 'together', '', sum('outs'), sum('runs')]],
  );
}

/** Whose placements stood for the average defence. */
function openingText({ opening, bearingDeg, batterSide }: Explanation): string {
  const { lenders, low, high } = opening;
  if (lenders.length === 0) return 'The opening mark is the direct fit: no placement on a like ball is known.\n';
  const clubs = new Map<string, number>();
  for (const { team } of lenders) clubs.set(team, (clubs.get(team) ?? 0) + 1);
  const dates = lenders.map(({ date }) => date).sort();
  const farthest = Math.max(...lenders.map((lender) => Math.abs(lender.bearingDeg - bearingDeg)));
  const like = Number.isNaN(farthest) ? '' : `, within ${farthest.toFixed(1)} degrees of this bearing`;
  return [
    `The opening mark averages over the placements on ${lenders.length} other balls from side ${batterSide}${like}, ${dates[0]} to ${dates.at(-1)}:`,
    `  ${[...clubs].map(([team, n]) => `${team} ${n}`).join(', ')}`,
    `  with the worst of them this ball is an out ${chance(low)} of the time, with the best ${chance(high)}; plays ${lenders
      .slice(0, 3)
      .map(({ playId }) => playId)
      .join(', ')} and so on (all with --json)`,
    '',
  ].join('\n');
}

function gradeText({ grade, flags }: Explanation): string {
  const words = {
    full: '',
    ground:
      'Grade ground: a start, the bearing or the speed is missing, so placement and reach cannot be told apart and are one entry.\n',
    whole: 'Grade whole: only the result is known, so all of it is one entry, shared by the average chances.\n',
  }[grade];
  return `${words ?? ''}${flags === '' ? '' : `Flags: ${flags}\n`}`;
}
