import type { DemoLeague } from '../demo-league.ts';

export const PEOPLE_COLUMNS = ['person_id', 'name', 'bats', 'throws', 'home_to_first_s', 'born'];
export const FIELD_TIME_COLUMNS = ['season', 'team', 'fielder_id', 'position', 'outs_played'];

export function* peopleLines({ people }: DemoLeague): Generator<string> {
  yield PEOPLE_COLUMNS.join(',');
  for (let k = 0; k < people.personId.length; k += 1) {
    const { personId, name, bats, throws, homeToFirstS, born } = people;
    yield [personId[k], name[k], bats[k], throws[k], homeToFirstS[k], born[k]].join(',');
  }
}

export function* fieldTimeLines({ fieldTime, plays }: DemoLeague): Generator<string> {
  yield FIELD_TIME_COLUMNS.join(',');
  const { season, team, fielder, position, outsPlayed } = fieldTime;
  for (let k = 0; k < season.length; k += 1) {
    yield [season[k], plays.teams[team[k]!], plays.people[fielder[k]!], position[k], outsPlayed[k]].join(',');
  }
}
