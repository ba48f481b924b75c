import { expect, test } from 'vitest';
import { OUTGOING_TABLES, type OutgoingTableName } from '../../src/book/outgoing-tables.ts';

/** The data contract, word for word where it lists columns, and its kinds and endings written out. */
const KINDS = ['placement', 'reach', 'finish', 'turn', 'ground', 'net'];
const SUMS = ['outs', 'runs', 'runs_se'].flatMap((unit) => KINDS.map((kind) => `${kind}_${unit}`)).join(' ');
const CONTRACT: Partial<Record<OutgoingTableName, string>> = {
  marks: 'play_id season ball_kind opening opening_direct set gathered closed stake_runs grade flags',
  entries: 'play_id season fielder_id position team kind outs runs',
  fielders:
    `season fielder_id name position team plays chances share_full ${SUMS} reach_rating reach_rating_lo80 ` +
    'reach_rating_hi80 finish_rating finish_rating_lo80 finish_rating_hi80',
  teams: `season team plays ${SUMS} overshift_plays placement_runs_in_overshift placement_runs_otherwise`,
  alignments: 'play_id name right_side_infielders legal_two_a_side reason',
  reliability: 'kind position method min_chances n r lo95 hi95 spearman_brown',
  balance: 'season ball_class mark_or_kind total_outs total_runs logit_shift',
  intake_log: 'file table read loaded set_aside',
  set_aside: 'file line table column reason text',
};

test.each(Object.entries(CONTRACT))('%s begins with the columns of the contract, in order', (name, columns) => {
  const wanted = columns.split(' ');
  const found = OUTGOING_TABLES[name as OutgoingTableName].columns.map((column) => column.name);
  expect(found.slice(0, wanted.length)).toEqual(wanted);
  expect(new Set(found).size).toBe(found.length);
});

test('tables of sums have the shares of all grades', () => {
  for (const name of ['fielders', 'teams', 'balance'] as const) {
    const found = OUTGOING_TABLES[name].columns.map((column) => column.name);
    expect(found).toEqual(expect.arrayContaining(['share_full', 'share_ground', 'share_whole']));
  }
});
