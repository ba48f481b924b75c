import { GRADES } from '../../chances/grades.ts';
import type { ClassTeller } from './class-teller.ts';

/** A man's starts beside the even spots of the same plays; columns of equal length, feet in the project's frame. */
export interface PlacementMap {
  readonly playId: readonly string[];
  readonly startXFt: readonly number[];
  readonly startYFt: readonly number[];
  /** Mean over the starts that the play's draws used at the position (method.md 5). */
  readonly evenXFt: readonly number[];
  readonly evenYFt: readonly number[];
}

const FULL = GRADES.indexOf('full');

/** The starts of `fielderId` at `position` in a season on plays of grade `full` that have even spots. */
export function placementMap(teller: ClassTeller, fielderId: string, position: number, season: number): PlacementMap {
  const { plays, draws } = teller;
  const { table, men, starts } = plays;
  const map = {
    playId: [] as string[],
    startXFt: [] as number[],
    startYFt: [] as number[],
    evenXFt: [] as number[],
    evenYFt: [] as number[],
  };
  const person = table.people.indexOf(fielderId);
  if (person < 0 || position > men) return map;
  for (let at = 0; at < plays.count; at += 1) {
    const isHis = table.fielder[plays.row[at] * 9 + position - 1] === person;
    if (!isHis || plays.season[at] !== season || plays.grade[at] !== FULL) continue;
    if (draws.source[at * draws.draws] < 0) continue;
    let [x, y] = [0, 0];
    for (let draw = 0; draw < draws.draws; draw += 1) {
      const lender = (draws.source[at * draws.draws + draw] * men + position - 1) * 2;
      x += starts[lender] / draws.draws;
      y += starts[lender + 1] / draws.draws;
    }
    const own = (at * men + position - 1) * 2;
    map.playId.push(table.playId[plays.row[at]]);
    map.startXFt.push(starts[own]);
    map.startYFt.push(starts[own + 1]);
    map.evenXFt.push(x);
    map.evenYFt.push(y);
  }
  return map;
}
