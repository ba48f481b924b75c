import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Cell, ManPosterior } from '../src/ratings/man-posterior.ts';
import { findSpread } from '../src/ratings/man-spread.ts';
import { addRowInto, CURVE_POINTS, ShiftCurve } from '../src/ratings/shift-curve.ts';

/** lme4's fits, with the script that made them and the versions of R and lme4: checks/r/mixed-logit.R. */
const reference = JSON.parse(readFileSync(new URL('references/mixed-logit.json', import.meta.url), 'utf8'));

interface Row {
  readonly herd: number;
  readonly incidence: number;
  readonly size: number;
  readonly period: number;
  readonly late: number;
}
const rows: readonly Row[] = reference.rows;
const herds = [...new Set(rows.map(({ herd }) => herd))];

/** The rows of a herd, or of half of it, as a cell; the reference's fixed effects are the league's surface. */
function cellOf(own: readonly Row[], fixed: readonly number[]): Cell {
  const sums = new Float64Array(CURVE_POINTS);
  for (const { period, size } of own) {
    addRowInto(sums, 0, Math.exp(-(fixed[0]! + (period > 1 ? fixed[period - 1]! : 0))), size);
  }
  return { curve: new ShiftCurve(sums), done: own.reduce((sum, { incidence }) => sum + incidence, 0) };
}

const posterior = new ManPosterior();

function sumEvidence(herdCells: readonly (readonly Cell[])[], priorOf: (cells: number) => Float64Array): number {
  let sum = 0;
  for (const cells of herdCells) {
    posterior.fit(cells, priorOf(cells.length));
    sum += posterior.logEvidence;
  }
  return sum;
}

describe("a spread between men against lme4's glmer on cbpp", () => {
  const { fixed, sd, gain, modes, sds } = reference.herd;
  const cells = herds.map((herd) => [
    cellOf(
      rows.filter((row) => row.herd === herd),
      fixed,
    ),
  ]);
  const evidenceAt = (spread: number) => sumEvidence(cells, () => Float64Array.of(spread * spread));

  it('finds the spread, and the log likelihood there', () => {
    const spread = findSpread(evidenceAt);
    // Given the fixed effects of the joint maximum, the maximum over the spread alone is the joint one.
    expect(Math.abs(spread.likeliest - sd.herd)).toBeLessThan(1e-4);
    expect(Math.abs(spread.gain - gain)).toBeLessThan(1e-6);
  });

  it('finds the conditional modes and their standard deviations', () => {
    herds.forEach((herd, k) => {
      posterior.fit(cells[k]!, Float64Array.of(sd.herd ** 2));
      expect(Math.abs(posterior.shift[0]! - modes.herd[String(herd)])).toBeLessThan(1e-5);
      const variance = new Float64Array(1);
      posterior.covarianceInto(variance);
      expect(Math.abs(Math.sqrt(variance[0]!) - sds.herd[k])).toBeLessThan(1e-5);
    });
  });

  it('is within a hundredth of the spread by 25 points of quadrature', () => {
    const spread = findSpread(evidenceAt).likeliest;
    expect(Math.abs(spread / reference.quadrature.sd - 1)).toBeLessThan(0.01);
  });
});

describe("a man's shift and his directions' against lme4's glmer with halves of herds", () => {
  const { fixed, sd, gain, modes } = reference.herd_and_half;
  const halves = herds.map((herd) =>
    [0, 1].map((late) => rows.filter((row) => row.herd === herd && row.late === late)).filter((own) => own.length > 0),
  );
  const cells = halves.map((own) => own.map((half) => cellOf(half, fixed)));
  const priorOf = (between: number, apart: number) => (n: number) => {
    const prior = new Float64Array(n * n).fill(between * between);
    for (let c = 0; c < n; c += 1) prior[c * n + c]! += apart * apart;
    return prior;
  };

  it('has the same log likelihood, and its maximum there', () => {
    const at = (between: number, apart: number) => sumEvidence(cells, priorOf(between, apart));
    const best = at(sd.herd, sd['herd:late']);
    expect(Math.abs(best - gain)).toBeLessThan(1e-6);
    for (const [a, b] of [
      [1.1, 1],
      [0.9, 1],
      [1, 1.3],
      [1, 0.7],
    ] as const) {
      expect(at(sd.herd * a, sd['herd:late'] * b)).toBeLessThan(best);
    }
  });

  it('has the same conditional modes', () => {
    herds.forEach((herd, k) => {
      posterior.fit(cells[k]!, priorOf(sd.herd, sd['herd:late'])(cells[k]!.length));
      halves[k]!.forEach((half, c) => {
        const key = `${herd}:${half[0]!.late === 1 ? 'TRUE' : 'FALSE'}`;
        const expected = modes.herd[String(herd)] + modes['herd:late'][key];
        expect(Math.abs(posterior.shift[c]! - expected)).toBeLessThan(1e-5);
      });
    });
  });
});
