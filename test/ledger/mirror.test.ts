import { beforeAll, describe, expect, it } from 'vitest';
import { BallGame } from '../../src/chances/ball-game.ts';
import type { EvenDraws } from '../../src/chances/even-draws.ts';
import { GrounderChances, MOVABLE_ON_GROUNDERS } from '../../src/chances/grounder-chances.ts';
import { fitGrounderModels, type GrounderModels } from '../../src/chances/grounder-models.ts';
import { type Grounders, selectGrounders } from '../../src/chances/grounders.ts';
import { shapleyInto } from '../../src/ledger/shapley.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { SILENT } from '../../src/progress.ts';
import { type Fabricated, fabricatePlays, type Starts } from '../chances/fabricated-plays.ts';

/** The same play in a mirror along the line from home to second base: third and short for first and second. */
function mirror({ bearing, starts, gatheredBy, ...rest }: Fabricated): Fabricated {
  const across = [0, 1, 2, 5, 6, 3, 4, 9, 8, 7];
  const turned: Record<number, readonly [number, number]> = {};
  for (const [position, spot] of Object.entries(starts ?? {}))
    turned[across[Number(position)]!] = [-spot![0], spot![1]];
  return { ...rest, bearing: -bearing!, starts: turned as Starts, gatheredBy: across[gatheredBy!]! };
}

/** Plays in which a man's chance falls with his distance from the line, then the same in a mirror. */
function mirroredPlays(count: number): Fabricated[] {
  const random = createRandom(12);
  const plays = Array.from({ length: count }, (): Fabricated => {
    const bearing = -40 + 80 * random.next();
    const angle = (bearing * Math.PI) / 180;
    const near = (x: number, y: number) => [x + 12 * random.normal(), y + 8 * random.normal()] as const;
    const starts = { 3: near(62, 100), 4: near(34, 143), 5: near(-62, 100), 6: near(-34, 143) };
    let gatheredBy = 8;
    for (const position of [3, 5, 4, 6] as const) {
      const [x, y] = starts[position];
      const gap = Math.abs(y * Math.sin(angle) - x * Math.cos(angle));
      if (random.next() < 1 / (1 + Math.exp((gap - 18) / 4))) {
        gatheredBy = position;
        break;
      }
    }
    const outs = gatheredBy < 7 && random.next() < 0.93 ? 1 : 0;
    return { bearing, starts, gatheredBy, outs, gatherTime: null, gatherAt: null, speed: 70 + 30 * random.next() };
  });
  return [...plays, ...plays.map(mirror)];
}

describe('two equal defenders get equal shares', () => {
  let models: GrounderModels;
  let grounders: Grounders;
  /** Play 0 has the middle men near the line, play 1 far from it, play 2 has only the shortstop near. */
  const at = (x: number, y = 140): Starts => ({ 3: [60, 100], 4: [x, y], 5: [-60, 100], 6: [-x, y] });
  const probes: Fabricated[] = [
    { id: 'a', club: 'Reed', bearing: 0, starts: at(14) },
    { id: 'b', club: 'Marsh', bearing: 0, starts: at(45) },
    { id: 'c', club: 'Reed', bearing: 0, starts: { ...at(45), 6: [-14, 140] } },
    { id: 'd', club: 'Reed', bearing: 0, starts: { ...at(45), 4: [12, 138], 6: [12, 138] } },
    { id: 'e', club: 'Marsh', bearing: 0, starts: { ...at(45), 4: [40, 150], 6: [40, 150] } },
  ];

  beforeAll(() => {
    models = fitGrounderModels(selectGrounders(fabricatePlays(mirroredPlays(400))), SILENT);
    grounders = selectGrounders(fabricatePlays(probes));
  });

  function shares(play: number, lenders: readonly number[], of = models): Float64Array {
    const draws: EvenDraws = {
      draws: lenders.length,
      source: Int32Array.from(probes.flatMap(() => [...lenders])),
      flags: new Uint16Array(probes.length),
    };
    const game = new BallGame(grounders, new GrounderChances(grounders, of), draws, MOVABLE_ON_GROUNDERS);
    game.setActual(play);
    game.playCoalitions(play);
    const coalitions = 1 << game.playerCount;
    const mean = new Float64Array(coalitions);
    for (let d = 0; d < lenders.length; d += 1) {
      for (let a = 0; a < coalitions; a += 1) mean[a]! += game.coalitionValue[d * coalitions + a]! / lenders.length;
    }
    const own = new Float64Array(game.playerCount);
    shapleyInto(mean, game.playerCount, own);
    // First baseman to shortstop; who is no player has no share.
    const out = new Float64Array(MOVABLE_ON_GROUNDERS.length);
    own.forEach((share, bit) => {
      out[game.players[bit]! - 2] = share;
    });
    return out;
  }

  it('who moved alike to a ball up the middle', () => {
    const [first, second, third, shortstop] = shares(0, [1]);
    expect(second).toBeGreaterThan(0.05);
    // Not to the last bit: first base has no mirror, and the promise knows the throw. Equal men are in the next test.
    expect(shortstop).toBeGreaterThan(0.05);
    // The corner men stood where the draw has them.
    for (const share of [first, third]) expect(share).toBeCloseTo(0, 12);
  });

  it('who are the same man twice, to the last bits', () => {
    const twin = models.positions.map((each, k) => (k === 3 ? models.positions[5]! : each));
    const [, second, , shortstop] = shares(3, [4], { ...models, positions: twin });
    expect(second).toBeGreaterThan(0.05);
    expect(shortstop).toBeCloseTo(second!, 14);
  });

  it('but less for him who stands in one of the draws already', () => {
    const [, second, , shortstop] = shares(0, [1, 2]);
    expect(shortstop).toBeLessThan(second!);
    expect(second! + shortstop!).toBeGreaterThan(0);
  });

  it('and one who moved alone gets all of it', () => {
    const [, second, , shortstop] = shares(2, [1]);
    expect(second).toBeCloseTo(0, 12);
    expect(shortstop).toBeGreaterThan(0.05);
  });
});
