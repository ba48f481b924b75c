import { expect, test } from 'vitest';
import { nameAlignment } from '../../src/diamond/alignment.ts';
import type { AlignmentName } from '../../src/diamond/alignment-names.ts';
import { legalTwoASide } from '../../src/diamond/playing-rules.ts';
import { simulateLeague } from '../../src/league/simulate-league.ts';

// The simulator places men by habits of its own; what it meant by them is never told to the names.
const { plays, truth } = simulateLeague({ seasons: 1, teams: 8, seed: 5, ballsPerSeason: 2000 });
const starts = new Float64Array(plays.count * 12);
for (let k = 0; k < starts.length; k += 1) {
  const from = Math.floor(k / 12) * 9 + Math.floor((k % 12) / 2);
  starts[k] = (k % 2 === 0 ? plays.startXFt : plays.startYFt)[from]!;
}
const names = Array.from({ length: plays.count }, (_, row) =>
  nameAlignment(starts, row, {
    outs: plays.outsBefore[row]!,
    bases: plays.bases[row]!,
    batterSide: plays.batterSide[row]!,
  }),
);
const habitOf = (row: number) => truth.habits.find(({ team }) => team === plays.teams[plays.fieldingTeam[row]!])!.habit;

/** Share of a club's seen plays with the name. */
function shareByTeam(name: AlignmentName): { habit: string; share: number }[] {
  return truth.habits.map(({ team, habit }) => {
    const seen = names.filter((own, row) => own !== null && plays.teams[plays.fieldingTeam[row]!] === team);
    return { habit, share: seen.filter((own) => own === name).length / seen.length };
  });
}

test('every club with the overshifting habit overshifts more than any other club, straight-up clubs hardly ever', () => {
  const shares = shareByTeam('overshift');
  const least = Math.min(...shares.filter(({ habit }) => habit === 'overshifting').map(({ share }) => share));
  const mostOfOthers = Math.max(...shares.filter(({ habit }) => habit !== 'overshifting').map(({ share }) => share));
  expect(shares).toHaveLength(8);
  expect(least).toBeGreaterThan(0.25);
  expect(mostOfOthers).toBeLessThan(0.05);
  for (const { habit, share } of shares) if (habit === 'straight-up') expect(share).toBeLessThan(0.01);
});

test('straight-up clubs are straight-up with nobody on, and clubs that shade are shaded more than they', () => {
  const tally = {
    'straight-up': [0, 0, 0],
    'shading well': [0, 0, 0],
    'shading badly': [0, 0, 0],
    overshifting: [0, 0, 0],
  };
  names.forEach((name, row) => {
    if (name === null || plays.bases[row] !== 0) return;
    const counts = tally[habitOf(row) as keyof typeof tally];
    counts[0]! += 1;
    if (name === 'straight-up') counts[1]! += 1;
    if (name === 'shaded left' || name === 'shaded right') counts[2]! += 1;
  });
  const [plain, plainStraight, plainShaded] = tally['straight-up'];
  expect(plainStraight! / plain!).toBeGreaterThan(0.85);
  for (const habit of ['shading well', 'shading badly'] as const) {
    expect(tally[habit][2]! / tally[habit][0]!).toBeGreaterThan(0.1 + plainShaded! / plain!);
  }
});

test('unseen infields have neither name nor judgement, and no overshift is legal', () => {
  let unseen = 0;
  names.forEach((name, row) => {
    const { legal } = legalTwoASide(starts, row);
    expect(legal === null).toBe(name === null);
    if (name === null) unseen += 1;
    if (name === 'overshift') expect(legal).toBe(false);
  });
  // The league leaves about one play in twenty without infield starts.
  expect(unseen / plays.count).toBeGreaterThan(0.02);
  expect(unseen / plays.count).toBeLessThan(0.1);
});
