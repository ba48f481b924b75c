import { afterAll, beforeAll, expect, test } from 'vitest';
import { IN_MEMORY, openDuckDbStore } from '../../../src/book/duckdb-store.ts';
import type { Store } from '../../../src/book/store.ts';
import { foundPlaysQuery, type PlayQuestion, prepareFoundPlays } from '../../../src/commands/views/found-plays.ts';

let store: Store;

/** Three plays: one with a gain and a larger loss, one with a gain, one without entries. */
beforeAll(async () => {
  store = await openDuckDbStore(IN_MEMORY);
  await store.run(`CREATE TABLE marks AS SELECT * FROM (VALUES
    ('a', 2031, 'ground', 0.5, 0.6, 0.2, 0.0, 'full'),
    ('b', 2031, 'fly', 0.5, 0.4, 1.0, 1.0, 'full'),
    ('c', 2032, 'ground', 0.7, NULL, NULL, 1.0, 'whole'))
    AS t(play_id, season, ball_kind, opening, "set", gathered, closed, grade)`);
  await store.run(`CREATE TABLE plays AS SELECT * FROM (VALUES
    ('a', DATE '2031-04-02', 1, 'North', 'South', 'p9', -20.0, 30.0, 40.0, 90.0, 'single'),
    ('b', DATE '2031-04-01', 2, 'South', 'North', 'p8', 5.0, NULL, NULL, 95.0, 'out'),
    ('c', DATE '2032-04-01', 3, 'North', 'South', 'p8', NULL, NULL, NULL, NULL, 'out'))
    AS t(play_id, date, inning, fielding_team, batting_team, batter_id, bearing_deg, landing_x_ft, landing_y_ft, exit_speed_mph, result)`);
  await store.run(`CREATE TABLE entries AS SELECT * FROM (VALUES
    ('a', 'p1', 6, 'placement', 0.1, 0.08), ('a', 'p1', 6, 'reach', -0.4, -0.3), ('b', 'p2', 8, 'reach', 0.6, 0.5))
    AS t(play_id, fielder_id, position, kind, outs, runs)`);
  await store.run(
    `CREATE TABLE people AS SELECT * FROM (VALUES ('p1', 'Zeno'), ('p2', 'Abel'), ('p9', 'Mo')) AS t(person_id, name)`,
  );
  await prepareFoundPlays(store);
});
afterAll(() => store.close());

const ask = async (question: Partial<PlayQuestion>, sort: { column: string; descending: boolean }[] = []) => {
  const query = foundPlaysQuery({ order: 'swing', ...question });
  const [counted] = await store.rows(query.countSql);
  const rows = await store.rows(query.rowsSql(['play_id', 'kind', 'outs'], 10, { sort }));
  expect(rows.length).toBe(Number(counted?.n));
  return rows.map(({ play_id, kind, outs }) => `${play_id} ${kind} ${outs}`);
};

test('each play is there once, with its largest entry of the order that is asked for', async () => {
  expect(await ask({})).toEqual(['b reach 0.6', 'a reach -0.4', 'c null null']);
  expect(await ask({ order: 'gain' })).toEqual(['b reach 0.6', 'a placement 0.1', 'c null null']);
  expect(await ask({ order: 'loss' })).toEqual(['a reach -0.4', 'b reach 0.6', 'c null null']);
  expect(await ask({ order: 'latest' })).toEqual(['c null null', 'a reach -0.4', 'b reach 0.6']);
});

test('conditions on the play keep it or not, conditions on entries say which of them count', async () => {
  expect(await ask({ team: 'North' })).toEqual(['a reach -0.4', 'c null null']);
  expect(await ask({ out: true, season: 2032 })).toEqual(['c null null']);
  expect(await ask({ ballKind: 'ground', grade: 'full', batter: 'p9' })).toEqual(['a reach -0.4']);
  expect(await ask({ entry: 'placement' })).toEqual(['a placement 0.1']);
  expect(await ask({ defender: 'p2', order: 'loss' })).toEqual(['b reach 0.6']);
  expect(await ask({ defender: "p2' OR 1=1 --" })).toEqual([]);
});

test('rows are ordered by any column, of the play or of its entry, and cut after that', async () => {
  const by = (column: string, descending = false) => ask({}, [{ column, descending }]);
  expect(await by('outs')).toEqual(['a reach -0.4', 'b reach 0.6', 'c null null']);
  expect(await by('outs', true)).toEqual(['b reach 0.6', 'a reach -0.4', 'c null null']);
  // By name where there is one: Abel before Zeno, though p1 comes before p2.
  expect(await by('defender')).toEqual(['b reach 0.6', 'a reach -0.4', 'c null null']);
  expect(await by('batter', true)).toEqual(['b reach 0.6', 'c null null', 'a reach -0.4']);
  const { rowsSql } = foundPlaysQuery({ order: 'swing' });
  const [second] = await store.rows(
    rowsSql(['play_id', 'landing_ft', 'date'], 1, { sort: [{ column: 'play_id', descending: true }], from: 2 }),
  );
  expect(second).toEqual({ play_id: 'a', landing_ft: 50, date: '2031-04-02' });
});

test('a word that means nothing is refused with those that do', () => {
  expect(() => foundPlaysQuery({ order: 'swing', grade: 'half' })).toThrow('There is no grade "half".');
  expect(() => foundPlaysQuery({ order: 'best' as 'swing' })).toThrow('There is no order "best".');
  expect(() => foundPlaysQuery({ order: 'swing', season: 2031.5 })).toThrow('season wants a whole number');
});
