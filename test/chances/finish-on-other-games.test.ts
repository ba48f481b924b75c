import { describe, expect, it } from 'vitest';
import { type FinishModel, finishChances, finishFits } from '../../src/chances/finish-model.ts';
import { finishChancesOnOtherGames, finishFitsOnOtherGames } from '../../src/chances/finish-on-other-games.ts';
import { selectGrounders } from '../../src/chances/grounders.ts';
import { fitHere } from '../../src/models/fitting.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { type Fabricated, fabricatePlays } from './fabricated-plays.ts';

const GAMES = 60;
const GATHERS = 20;

/** Shortstops' gathers, a third of them without a recorded base; outs may be given in place of the ones that were made. */
function fabricateGathers(outs?: Uint8Array) {
  const random = createRandom(8);
  const plays: Fabricated[] = Array.from({ length: GAMES * GATHERS }, (_, k) => {
    const across = 60 * random.next() - 30;
    const made = random.next() < 1 / (1 + Math.exp(-2 + 0.05 * Math.abs(across))) ? 1 : 0;
    return {
      game: `game ${Math.floor(k / GATHERS)}`,
      outs: outs?.[k] ?? made,
      gatherAt: [-40 + across, 142] as const,
      gatherTime: 1.7 + 0.1 * random.normal(),
      ...(k % 3 === 0 ? { throwTo: 0 } : {}),
    };
  });
  return selectGrounders(fabricatePlays(plays));
}

const grounders = fabricateGathers();
const finish = fitHere(finishFits(grounders));

const marksOf = (own: typeof grounders, model: FinishModel) =>
  finishChancesOnOtherGames(fitHere(finishFitsOnOtherGames(own, model)), own);

describe('gathered marks on other games', () => {
  it('do not know how the own game ended, and know how the others did', () => {
    const game = 7;
    const isOwn = (at: number) => Math.floor(at / GATHERS) === game;
    const turned = fabricateGathers(grounders.closed.map((out, at) => (isOwn(at) ? 1 - out : out)) as Uint8Array);
    const [before, after] = [marksOf(grounders, finish), marksOf(turned, finish)];
    const changed = [...before.keys()].filter((at) => before[at] !== after[at]);
    expect(changed.filter(isOwn)).toEqual([]);
    expect(changed.length).toBeGreaterThan(grounders.count / 2);
  });

  it('are worse at the outs of the book than those that were fitted to them, and nearly as good', () => {
    const loss = (marks: Float64Array) =>
      -marks.reduce((sum, mark, at) => sum + Math.log(grounders.closed[at] ? mark : 1 - mark), 0) / marks.length;
    const [own, other] = [loss(finishChances(finish, grounders)), loss(marksOf(grounders, finish))];
    expect(other).toBeGreaterThan(own);
    const outs = grounders.closed.reduce((sum, out) => sum + out, 0) / grounders.count;
    expect(other).toBeLessThan(-outs * Math.log(outs) - (1 - outs) * Math.log(1 - outs));
  });

  it('are those of the book for a book of a single game', () => {
    const plays = Array.from({ length: 8 }, (_, k) => ({ game: 'only', outs: k % 2, gatherAt: [-40, 142] as const }));
    const one = selectGrounders(fabricatePlays(plays));
    const all = fitHere(finishFits(one));
    expect(marksOf(one, all)).toEqual(finishChances(all, one));
  });
});
