import type { DemoLeague, LeagueOptions } from '../demo-league.ts';
import { SKILL_NAMES, SKILL_STRIDE } from '../physics/men.ts';

const BALL_COLUMNS = ['exit_speed_mph', 'launch_angle_deg', 'bearing_deg', 'kick_deg', 'hop'];
const TEN_THOUSANDTHS = 1e4;
const short = (value: number) => String(Math.round(value * TEN_THOUSANDTHS) / TEN_THOUSANDTHS);

/** One line a person and position that he played in the infield, one with an empty position for everybody else. */
export function* skillLines({ truth }: DemoLeague): Generator<string> {
  yield ['person_id', 'position', ...SKILL_NAMES, 'true_reach', 'true_finish'].join(',');
  const { levels } = truth;
  const rows = new Map<number, number[]>();
  for (const [k, who] of levels.person.entries()) rows.set(who, [...(rows.get(who) ?? []), k]);
  for (let who = 0; who < truth.personIds.length; who += 1) {
    const skills = Array.from(
      truth.skills.subarray(who * SKILL_STRIDE, who * SKILL_STRIDE + SKILL_NAMES.length),
      short,
    );
    for (const k of rows.get(who) ?? [-1]) {
      const level =
        k < 0 ? ['', '', ''] : [levels.position[k], short(levels.trueReach[k]!), short(levels.trueFinish[k]!)];
      yield [truth.personIds[who], level[0], ...skills, level[1], level[2]].join(',');
    }
  }
}

/** One line a ball: how it left the bat, the luck of its bounces, and where all nine stood. */
export function* ballLines({ plays, truth }: DemoLeague): Generator<string> {
  const { balls } = truth;
  const places = [1, 2, 3, 4, 5, 6, 7, 8, 9].flatMap((p) => [`start_x_${p}_ft`, `start_y_${p}_ft`]);
  yield ['play_id', ...BALL_COLUMNS, ...places].join(',');
  const launch = [balls.exitSpeedMph, balls.launchAngleDeg, balls.bearingDeg, balls.kickDeg, balls.hop];
  for (let row = 0; row < plays.count; row += 1) {
    let line = plays.playId[row]!;
    for (const column of launch) line += `,${short(column[row]!)}`;
    for (let at = row * 9; at < row * 9 + 9; at += 1) {
      line += `,${short(balls.startXFt[at]!)},${short(balls.startYFt[at]!)}`;
    }
    yield line;
  }
}

export function seedsText(options: LeagueOptions, league: DemoLeague): string {
  return JSON.stringify({ options, habits: league.truth.habits }, null, 2);
}

export const TRUTH_README = `# The truth behind the demo league

What the files one folder up do not tell. Do not load these files into a book: they are for tests of the method.

- \`people.csv\`: everybody's true skills, which stay the same from season to season: seconds to the first step, top speed,
  feet of arm's length more than usual, hands (logit units against dropping a ball), full throw, seconds from glove to
  release. For each infield position that he played: \`true_reach\`, the extra gathers per 100 average chances when he
  takes an average man's place among average team-mates, over a fixed set of the league's ground balls from the usual
  starts; \`true_finish\`, the extra outs per 100 gathers.
- \`balls.csv.gz\`: every ball as it left the bat (rounded to 1/10,000), the turn and the height of its bounces, and where
  all nine defenders stood, without holes. Who they were, the runners and the outs are in the plays and starts files.
- \`seeds.json\`: the options of the league and each club's habit of placing its defenders.

To replay a ball under any placement, compute the league again from the options in \`seeds.json\` with \`simulateLeague\`
(the same options give the same league, to the last bit) and ask \`replayBall\`:

\`\`\`ts
const { plays, truth } = simulateLeague(seeds.options);
const starts = actualStarts(truth, row);   // x1, y1 to x9, y9 in feet; change them at will
const outcome = replayBall(truth, row, { starts, men: 'average', random: createRandom(5).next });
\`\`\`

The ball goes the same way in every replay; first steps, hands, throws and the batter's run are drawn anew.
`;
