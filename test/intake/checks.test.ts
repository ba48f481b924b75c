import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BOTH_MAPPING, MAPPING, type PlayCells, playsCsv, startsCsv, type Workspace, workspace } from './workspace.ts';

let at: Workspace;
beforeEach(() => {
  at = workspace();
});
afterEach(() => at.remove());

const ASIDE = 'SELECT line, "column", reason FROM set_aside ORDER BY "table", line';

/** [what is wrong, the change that makes it so, column, reason] */
const WRONG_PLAYS: [string, Partial<PlayCells>, string, RegExp][] = [
  ['an id is missing', { play_id: '' }, 'play_id', /required, and empty/],
  ['a blank id', { play_id: '   ' }, 'play_id', /required, and empty/],
  ['a word for a number', { exit_speed_mph: 'fast' }, 'exit_speed_mph', /'fast' is not a number/],
  ['a decimal comma in a file of points', { exit_speed_mph: '90,5' }, 'exit_speed_mph', /decimal comma/],
  ['NaN', { exit_speed_mph: 'NaN' }, 'exit_speed_mph', /'nan' is not a finite number/],
  ['infinity', { launch_angle_deg: '-inf' }, 'launch_angle_deg', /not a finite number/],
  ['an impossible date', { date: '2031-02-30' }, 'date', /'2031-02-30' is not a date/],
  ['a date without end', { date: 'infinity' }, 'date', /not possible/],
  ['a date long ago', { date: '0031-04-01' }, 'date', /not possible/],
  ['half an out', { outs_made: '0.5' }, 'outs_made', /'0.5' is not a whole number/],
  ['seven outs', { outs_before: '7' }, 'outs_before', /7 is outside the range 0 to 2/],
  [
    'an unknown kind',
    { ball_kind: 'grounder' },
    'ball_kind',
    /'grounder' is not a word it takes; they are 'ground', 'liner'/,
  ],
  ['no position', { gathered_by: '10' }, 'gathered_by', /10 is not a position; they are 1 to 9/],
  ['position nought', { gathered_by: '0' }, 'gathered_by', /0 is not a position/],
  ['one club twice', { fielding_team: 'Alders' }, 'fielding_team', /'Alders' is batting and fielding at once/],
  ['four outs', { outs_before: '2', outs_made: '2' }, 'outs_made', /outs_before \+ outs_made = 2 \+ 2/],
  ['an out without an out', { outs_made: '0' }, 'result', /result is 'out' and outs_made is 0/],
  ['a pitcher at bat against himself', { pitcher_id: 'a1' }, 'pitcher_id', /'a1' pitches to himself/],
  ['half a spot', { gather_x_ft: '' }, 'gather_x_ft', /needs both x and y/],
  ['a ball in the next town', { gather_y_ft: '5280' }, 'gather_y_ft', /5280.0 is outside the range/],
];

describe('plays are set aside', () => {
  let all: Workspace;
  let found: Record<string, unknown>[];
  beforeAll(async () => {
    all = workspace();
    const rows = WRONG_PLAYS.map(([, change], index) => ({ play_id: `w${index}`, ...change }));
    all.write('plays.csv', playsCsv([{}, ...rows, { play_id: 'last' }]));
    const report = await all.intake(MAPPING);
    expect(report).toMatchObject({ read: WRONG_PLAYS.length + 2, loaded: 2, setAside: WRONG_PLAYS.length });
    found = await all.rows(ASIDE);
  });
  afterAll(() => all.remove());

  test.each(WRONG_PLAYS.map((row, index) => [index, ...row] as const))(
    '%i: %s',
    (index, _what, _change, column, reason) => {
      expect(found[index]).toMatchObject({ line: index + 3, column });
      expect(found[index]!.reason).toMatch(reason);
    },
  );

  test('and the others are loaded', async () => {
    expect(await all.rows('SELECT play_id FROM plays ORDER BY rowid')).toEqual([
      { play_id: 'p1' },
      { play_id: 'last' },
    ]);
  });
});

test('a row has one reason, the first in the order of the columns', async () => {
  at.write('plays.csv', playsCsv([{ date: 'soon', outs_before: '9', ball_kind: 'x' }]));
  await at.intake(MAPPING);
  expect(await at.rows(ASIDE)).toMatchObject([{ column: 'date' }]);
});

test('what looks odd and happens is loaded: a single with an out on the bases, a clock that starts late', async () => {
  at.write(
    'plays.csv',
    playsCsv([
      { result: 'single', outs_made: '1' },
      { play_id: 'p2', gather_time_s: '-0.05' },
      { play_id: 'p3', result: 'fielders_choice', outs_made: '0' },
      { play_id: 'p4', exit_speed_mph: '', bearing_deg: '', gather_time_s: '' },
    ]),
  );
  expect(await at.intake(MAPPING)).toMatchObject({ loaded: 4, setAside: 0 });
});

test('season comes from the date and bearing from the landing when they are not given', async () => {
  at.write(
    'plays.csv',
    playsCsv([
      { bearing_deg: '', landing_x_ft: '-100', landing_y_ft: '100' },
      { play_id: 'p2', landing_x_ft: '9', landing_y_ft: '9' },
    ]),
  );
  await at.intake(MAPPING);
  const rows = await at.rows('SELECT season, bearing_deg FROM plays ORDER BY play_id');
  expect(rows[0]).toEqual({ season: 2031, bearing_deg: -45 });
  expect(rows[1]).toEqual({ season: 2031, bearing_deg: 10 });
});

describe('starts', () => {
  const load = async (starts: Parameters<typeof startsCsv>[0], plays: Partial<PlayCells>[] = [{}]) => {
    at.write('plays.csv', playsCsv(plays));
    at.write('starts.csv', startsCsv(starts));
    const report = await at.intake(BOTH_MAPPING);
    const aside = await at.rows(`SELECT line, "column", reason FROM set_aside WHERE "table" = 'starts' ORDER BY line`);
    return { report: report.files[1]!, aside };
  };

  const WRONG_STARTS: [string, Parameters<typeof startsCsv>[0][number], string, RegExp][] = [
    ['a start 900 ft away', { start_y_ft: '900' }, 'start_y_ft', /900.0 is outside the range/],
    ['a start in a far corner', { start_x_ft: '400', start_y_ft: '400' }, 'start_x_ft', /566 ft from home/],
    ['a position that is none', { position: '11' }, 'position', /11 is not a position/],
    ['no fielder', { fielder_id: '' }, 'fielder_id', /required, and empty/],
    ['only one coordinate', { start_y_ft: '' }, 'start_x_ft', /both x and y/],
    ['no such play', { play_id: 'p99' }, 'play_id', /no play 'p99'/],
    ['the batter', { fielder_id: 'a1' }, 'fielder_id', /is the batter of this play/],
    [
      'a man of the batting side',
      { fielder_id: 'a2' },
      'fielder_id',
      /'a2' is on the batting side: in this game he is with 'Alders'/,
    ],
  ];

  test('are set aside, each with its reason', async () => {
    const plays = WRONG_STARTS.map((_, index) => ({ play_id: `p${index}`, batter_id: index % 2 ? 'a1' : 'a2' }));
    const starts = WRONG_STARTS.flatMap(([what, change], index) => [
      { play_id: `p${index}`, position: '4', fielder_id: 'b4' },
      {
        play_id: `p${index}`,
        position: '6',
        fielder_id: 'b6',
        ...change,
        ...(what === 'the batter' ? { fielder_id: plays[index]!.batter_id } : {}),
      },
    ]);
    const { report, aside } = await load(starts, plays);
    expect(report).toMatchObject({ read: starts.length, loaded: WRONG_STARTS.length, setAside: WRONG_STARTS.length });
    WRONG_STARTS.forEach(([what, , column, reason], index) => {
      expect(aside[index], what).toMatchObject({ line: 2 * index + 3, column });
      expect(aside[index]!.reason, what).toMatch(reason);
    });
  });

  test('nobody saw him: a start without a spot is loaded', async () => {
    const { report } = await load([{ position: '4', fielder_id: 'b4', start_x_ft: '', start_y_ft: '' }]);
    expect(report).toMatchObject({ loaded: 1, setAside: 0 });
  });

  test('go with a play that was set aside, and say so', async () => {
    const { aside } = await load([{ position: '4', fielder_id: 'b4' }], [{ ball_kind: 'x' }]);
    expect(aside[0]!.reason).toMatch(/the play 'p1' was set aside/);
  });

  test('a position filled twice and a man in two places cost the later row', async () => {
    const { aside } = await load([
      { position: '4', fielder_id: 'b4' },
      { position: '4', fielder_id: 'b5' },
      { position: '6', fielder_id: 'b4' },
      { position: '4', fielder_id: 'b4' },
    ]);
    expect(aside.map(({ line, column }) => [line, column])).toEqual([
      [3, 'fielder_id'],
      [4, 'fielder_id'],
    ]);
    expect(aside[0]!.reason).toMatch(/conflict: row 1 of starts.csv/);
    expect(aside[1]!.reason).toMatch(/'b4' stands at position 4 of this play already/);
  });

  test('are checked against the plays and starts of the book too', async () => {
    await load([{ position: '4', fielder_id: 'b4' }]);
    at.write(
      'starts.csv',
      startsCsv([
        { position: '5', fielder_id: 'b4' },
        { position: '6', fielder_id: 'a1' },
        { position: '3', fielder_id: 'b3' },
      ]),
    );
    const onlyStarts = BOTH_MAPPING.replace(/ {2}plays:[\s\S]*(?= {2}starts:)/, '');
    expect(await at.intake(onlyStarts)).toMatchObject({ read: 3, loaded: 1, setAside: 2 });
  });
});

test('a play with its clubs the wrong way round is set aside, and does not turn the others against it', async () => {
  const wrong = { play_id: 'p9', batting_team: 'Birches', fielding_team: 'Alders' };
  at.write('plays.csv', playsCsv([{}, { play_id: 'p2' }, { play_id: 'p3' }, wrong]));
  at.write(
    'starts.csv',
    startsCsv([
      { position: '4', fielder_id: 'b4' },
      { play_id: 'p2', position: '1', fielder_id: 'b1' },
    ]),
  );
  expect(await at.intake(BOTH_MAPPING)).toMatchObject({ read: 6, loaded: 5, setAside: 1 });
  const [row] = await at.rows(ASIDE);
  expect(row!.reason).toMatch(/'a1' bats here against his own side: in this game he is with 'Alders'/);
});
