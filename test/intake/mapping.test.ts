import { describe, expect, test } from 'vitest';
import { ExpectedFailure } from '../../src/expected-failure.ts';
import { checkDateFormat } from '../../src/intake/date-format.ts';
import { nearestWord } from '../../src/intake/nearest-word.ts';
import { parseMapping } from '../../src/intake/read-mapping.ts';

const GOOD = `frames:
  rail: {unit: m, origin_ft: [0, 60.5], x_toward: third_base, y_toward: home}
tables:
  starts:
    files: [a.csv]
    wide:
      play_id: P
      frame: rail
      positions:
        3: {fielder_id: F3, x: X3, y: Y3}
  people:
    files: [p.csv, {path: q.csv, delimiter: ";"}]
    decimal: ","
    columns:
      person_id: {join: [Club, No], with: "/"}
      bats: {from: Hand, values: {links: L, 1: R, "": null}}
      home_to_first_s: {from: HF, unit: ms}
`;

test('a mapping is read into rules', () => {
  const [starts, people] = parseMapping(GOOD, 'm.yaml').sections;
  expect(starts).toMatchObject({ table: 'starts', wide: true });
  expect(starts!.rows[0]!.spots[0]).toMatchObject({ name: 'start', frame: { originX: 0, originY: 60.5 } });
  expect(people!.files).toMatchObject([
    { path: 'p.csv', decimal: ',' },
    { path: 'q.csv', decimal: ',', delimiter: ';' },
  ]);
  const rules = people!.rows[0]!.columns;
  expect(rules.get('person_id')).toEqual({ kind: 'join', from: ['Club', 'No'], separator: '/' });
  expect(rules.get('bats')).toEqual({
    kind: 'words',
    from: 'Hand',
    values: new Map([
      ['1', 'R'],
      ['links', 'L'],
      ['', ''],
    ]),
  });
  expect(rules.get('home_to_first_s')).toEqual({ kind: 'unit', from: 'HF', unit: 'ms' });
});

/** [what is wrong, what to replace, with what, line, message] */
const WRONG: [string, string, string, number | undefined, RegExp][] = [
  [
    'unknown key at the top',
    'tables:',
    'tabels:',
    3,
    /the mapping: unknown key 'tabels'. Did you mean 'tables'\? Allowed here: frames, tables/,
  ],
  ['unknown table', '  people:', '  persons:', 11, /tables: unknown key 'persons'/],
  [
    'unknown key of a file',
    'delimiter',
    'delimeter',
    12,
    /people\.files\.1: unknown key 'delimeter'. Did you mean 'delimiter'/,
  ],
  ['unknown key of a column', 'HF, unit', 'HF, unt', 17, /home_to_first_s: unknown key 'unt'. Did you mean 'unit'/],
  [
    'unknown column',
    'home_to_first_s',
    'home_to_frist_s',
    17,
    /unknown key 'home_to_frist_s'. Did you mean 'home_to_first_s'/,
  ],
  ['unknown key of a frame', 'origin_ft', 'origin', 2, /frames\.rail: unknown key 'origin'. Did you mean 'origin_ft'/],
  [
    'unknown unit',
    'unit: ms',
    'unit: msec',
    17,
    /'msec' is not a unit. Did you mean 'ms'\? Allowed: ft, in, yd, m, cm/,
  ],
  [
    'a unit of another kind',
    'unit: ms',
    'unit: mph',
    17,
    /the unit 'mph' does not fit: home_to_first_s is a time: s, ms/,
  ],
  [
    'a unit where there is none',
    'bats: {from: Hand, values: {links: L, 1: R, "": null}}',
    'bats: {from: Hand, unit: m}',
    16,
    /bats has no unit/,
  ],
  ['a frame in seconds', 'unit: m,', 'unit: s,', 2, /'s' is not a unit of length/],
  ['two frames of one name', 'tables:', '  rail: {unit: ft}\ntables:', 3, /the key 'rail' stands here a second time/],
  ['a column twice', '      bats', '      person_id: Id\n      bats', 16, /'person_id' stands here a second time/],
  ['a frame that is not there', 'frame: rail', 'frame: rial', 8, /there is no frame 'rial'. Did you mean 'rail'/],
  ['axes that are not square', 'y_toward: home', 'y_toward: first_base', 2, /right angle/],
  [
    'a direction that is none',
    'third_base',
    'third base',
    2,
    /'third base' is not a direction. Did you mean 'third_base'/,
  ],
  ['position ten', '3: {', '10: {', undefined, /a position must be a number 1 to 9/],
  ['half a spot', ', y: Y3', '', 10, /give both x and y/],
  [
    'a required column that nothing fills',
    '      person_id: {join: [Club, No], with: "/"}\n',
    '',
    undefined,
    /people needs the column 'person_id'/,
  ],
  [
    'a word the contract does not have',
    'links: L',
    'links: left',
    16,
    /values\.links: 'left' is not a word of bats. .*Allowed: 'L', 'R', 'S'/,
  ],
  [
    'two sources for one column',
    'unit: ms',
    'expr: HF',
    17,
    /exactly one of from, expr, value, join; found from and expr/,
  ],
  ['no source', '{from: HF, unit: ms}', '{unit: ms}', 17, /found none of them/],
  ['two changes at once', 'unit: ms', 'unit: ms, pattern: x', 17, /unit and pattern cannot stand together/],
  [
    'a unit beside a constant',
    '{from: HF, unit: ms}',
    '{value: 4, unit: ms}',
    17,
    /'unit' cannot stand beside 'value'/,
  ],
  ['a separator without a join', 'unit: ms', 'with: x', 17, /'with' belongs to 'join'/],
  ['a format on a number', 'unit: ms', 'format: "%d"', 17, /home_to_first_s is not a date/],
  ['a bad expression', '{from: HF, unit: ms}', '{expr: "1 +"}', 17, /the expression '1 \+' cannot be used/],
  [
    'an expression for a text',
    '{from: Hand, values: {links: L, 1: R, "": null}}',
    '{expr: "1"}',
    16,
    /gives a number, and bats is not one/,
  ],
  ['a reference to nothing', '{from: HF, unit: ms}', '{expr: "@born_s"}', 17, /'@born_s' is not a column of people/],
  ['a reference to a text', '{from: HF, unit: ms}', '{expr: "@name"}', 17, /'@name' is not a number/],
  [
    'a circle of one',
    '{from: HF, unit: ms}',
    '{expr: "@home_to_first_s + 1"}',
    undefined,
    /in a circle: @home_to_first_s -> @home_to_first_s/,
  ],
  ['a bad pattern', 'unit: ms', 'pattern: "("', 17, /the pattern '\(' cannot be used/],
  ['a delimiter of two characters', '";"', '";;"', 12, /must be one plain character/],
  ['a delimiter that ends lines', '";"', '"\\n"', 12, /must be one plain character/],
  ['a delimiter that is the quote', '";"', '"\\""', 12, /delimiter and the quote are the same/],
  [
    'a constant that is no number',
    '{from: HF, unit: ms}',
    '{value: fast}',
    17,
    /home_to_first_s is a double from 3 to 7, and 'fast' is not/,
  ],
  ['a constant out of range', '{from: HF, unit: ms}', '{value: 40}', 17, /'40' is not/],
  ['a list where a block should be', '    columns:\n', '    columns: [a]\n    spots:\n', undefined, /./],
  ['no YAML', 'frames:', 'frames: [', undefined, /not YAML/],
];

describe('is refused with its line, what is allowed and what was meant', () => {
  test.each(WRONG)('%s', (_what, from, to, line, message) => {
    expect(GOOD).toContain(from);
    let thrown: unknown;
    try {
      parseMapping(GOOD.replace(from, to), 'm.yaml');
    } catch (failure) {
      thrown = failure;
    }
    expect(thrown).toBeInstanceOf(ExpectedFailure);
    const failure = thrown as ExpectedFailure;
    expect(failure.kind).toBe('data');
    expect(failure.message).toMatch(message);
    if (line !== undefined) expect(failure.place).toMatchObject({ file: 'm.yaml', line });
    expect(failure.remedy).not.toBe('');
  });

  test('an empty file, and one that says nothing', () => {
    expect(() => parseMapping('', 'm.yaml')).toThrow(/the mapping is empty/);
    expect(() => parseMapping('tables: {}', 'm.yaml')).toThrow(/name at least one of 'plays', 'starts'/);
    expect(() => parseMapping('- a', 'm.yaml')).toThrow(/expected a block with frames, tables/);
  });

  test('a circle through several columns names the chain', () => {
    const plays = `tables:
  plays:
    files: [a.csv]
    columns:
      play_id: a
      game_id: a
      date: a
      outs_before: a
      batting_team: a
      fielding_team: a
      batter_id: a
      batter_side: a
      ball_kind: a
      outs_made: a
      result: a
      exit_speed_mph: {expr: "2 * @bearing_deg"}
      bearing_deg: {expr: "@gather_x_ft + 1"}
    spots:
      gather: {x: {expr: "@exit_speed_mph"}, y: y}
`;
    expect(() => parseMapping(plays, 'm.yaml')).toThrow(
      /in a circle: @exit_speed_mph -> @bearing_deg -> @gather_x_ft -> @exit_speed_mph/,
    );
    expect(() => parseMapping(plays.replace('@exit_speed_mph"', '@hang_time_s"'), 'm.yaml')).toThrow(
      /'@hang_time_s' is not filled/,
    );
    expect(() =>
      parseMapping(plays.replace('      exit_speed', '      gather_y_ft: y\n      exit_speed'), 'm.yaml'),
    ).toThrow(/gather_y_ft is filled twice/);
  });

  test('YAML that grows when it is read', () => {
    const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b]\nd: [*c,*c,*c,*c,*c,*c,*c,*c,*c]\n`;
    expect(() => parseMapping(bomb, 'm.yaml')).toThrow(ExpectedFailure);
  });
});

test('date formats must give a whole date', () => {
  expect(checkDateFormat('%d/%m/%Y')).toBeUndefined();
  expect(checkDateFormat('%Y%j')).toBeUndefined();
  expect(checkDateFormat('%-d. %B %Y')).toBeUndefined();
  expect(checkDateFormat('%d/%m')).toMatch(/whole date/);
  expect(checkDateFormat('%d/%m/%Q')).toMatch(/unknown code '%Q'/);
  expect(checkDateFormat('%d/%m/%Y%')).toMatch(/unknown code/);
});

test('the nearest word is near', () => {
  expect(nearestWord('Ball', ['ball', 'bell'])).toBe('ball');
  expect(nearestWord('xyz', ['ball', 'bell'])).toBeUndefined();
});
