import { hashText } from '../../numeric/hash.ts';
import type { AirBalls } from './air-balls.ts';
import type { AirModels } from './air-models.ts';
import { type Flights, projectFlights } from './carry.ts';
import { FlightChances } from './flight-chances.ts';

export { MOVABLE_IN_THE_AIR } from './flight-chances.ts';

/** Chances of all nine on the balls in the air of a table, whatever is known of their flights. */
export class AirChances extends FlightChances {
  private readonly standIns: StandIns;

  constructor(balls: AirBalls, models: AirModels) {
    const flights = projectFlights(balls, models.carry);
    super(balls, flights, models);
    this.standIns = new StandIns(balls, flights);
  }

  protected override flightFor(at: number, lender: number): number {
    return this.standIns.flightFor(at, lender);
  }
}

/** Flights for balls of which nothing tells how they flew: those of other balls of the same kind, tied to the lender. */
class StandIns {
  private readonly balls: AirBalls;
  /** Balls with a flight by kind, in order of play id. */
  private readonly byKind = new Map<number, number[]>();

  constructor(balls: AirBalls, flights: Flights) {
    this.balls = balls;
    const { table, row } = balls;
    if (!flights.distanceFt.some(Number.isNaN)) return;
    for (let at = 0; at < balls.count; at += 1) {
      if (Number.isNaN(flights.distanceFt[at])) continue;
      const list = this.byKind.get(balls.kind[at]);
      if (list === undefined) this.byKind.set(balls.kind[at], [at]);
      else list.push(at);
    }
    for (const list of this.byKind.values())
      list.sort((a, b) => (table.playId[row[a]] < table.playId[row[b]] ? -1 : 1));
  }

  flightFor(at: number, lender: number): number {
    const { table, row, kind } = this.balls;
    const list = this.byKind.get(kind[at]);
    if (kind[lender] === kind[at] || list === undefined) return lender;
    return list[(hashText(table.playId[row[lender]]) >>> 0) % list.length];
  }
}
