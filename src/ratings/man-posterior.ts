import { choleskyInPlace } from '../numeric/cholesky.ts';
import type { ShiftCurve } from './shift-curve.ts';

/**
 * Evidence on one number v whose log likelihood is done * v less the integral of a curve: chances that share one shift, with the
 * curve of their sum and how many came off; or a normal mean (`normalCell`).
 */
export interface Cell {
  readonly curve: Pick<ShiftCurve, 'at' | 'value' | 'slope' | 'integral'>;
  readonly done: number;
}

/** The mean of `count` numbers that add up to `sum`, each with the variance `noise`. */
export function normalCell(count: number, sum: number, noise: number): Cell {
  const precision = noise > 0 ? count / noise : 0;
  const curve = {
    value: 0,
    slope: precision,
    integral: 0,
    at(v: number): void {
      curve.value = precision * v;
      curve.integral = 0.5 * precision * v * v;
    },
  };
  return { curve, done: noise > 0 ? sum / noise : 0 };
}

/** The same evidence, on how far the shift is from `mean`. */
export function about(mean: number, { curve, done }: Cell): Cell {
  if (mean === 0) return { curve, done };
  curve.at(mean);
  const from = curve.integral;
  const moved = {
    value: 0,
    slope: 0,
    integral: 0,
    at(v: number): void {
      curve.at(mean + v);
      moved.value = curve.value;
      moved.slope = curve.slope;
      moved.integral = curve.integral - from;
    },
  };
  return { curve: moved, done };
}

/** A normal posterior: where it is, and its standard deviation, in which the uncertainty of the spreads is. */
export interface Estimate {
  readonly mean: number;
  readonly sd: number;
}

const MOST_PASSES = 60;
const CLOSE_ENOUGH = 1e-10;
const SHORTEST_STEP = 1e-3;

/**
 * Laplace's approximation for one man: a normal prior N(0, K) of the numbers of his cells, and outcomes in each. The
 * likelihoods of the cells are apart, so K may be singular - a spread of 0, cells that share one shift - when everything is put
 * through B = I + W^1/2 K W^1/2 (Rasmussen & Williams, Gaussian Processes for Machine Learning, 2006, algorithms 3.1 and 5.1).
 * Holds scratch space; `fit` fills the fields.
 */
export class ManPosterior {
  private size = 0;
  private prior: Float64Array = new Float64Array(0);
  /** Square roots of the curvatures W of the cells' likelihoods. */
  private root = new Float64Array(0);
  private factor = new Float64Array(0);
  /** shift = K a. */
  private a = new Float64Array(0);
  private aim = new Float64Array(0);
  private step = new Float64Array(0);
  /** Most likely shifts: the first ones, one a cell. */
  shift = new Float64Array(0);
  /** Logarithm of the marginal likelihood, against that of the same outcomes with all shifts 0. */
  logEvidence = 0;
  /** What the outcomes say of a mean m that all shifts would share: log likelihood score m - information m^2 / 2. */
  score = 0;
  information = 0;

  /** `prior` is the covariance K, cells x cells; it is kept until the next fit. */
  fit(cells: readonly Cell[], prior: Float64Array): void {
    this.allocate(cells.length);
    this.prior = prior;
    this.shift.fill(0);
    this.a.fill(0);
    let value = 0;
    for (let pass = 0; pass < MOST_PASSES; pass += 1) {
      this.takeAim(cells);
      const before = value;
      let moved = 0;
      for (let length = 1; ; length /= 2) {
        moved = this.move(length);
        value = this.objective(cells);
        if (value >= before - 1e-12 || length < SHORTEST_STEP) break;
        this.move(-length);
      }
      if (moved < CLOSE_ENOUGH) break;
    }
    this.factorise(cells);
    this.logEvidence = value;
    for (let c = 0; c < cells.length; c += 1) this.logEvidence -= Math.log(this.factor[c * cells.length + c]);
    this.sumUp();
  }

  /** Posterior covariance K - K W^1/2 B^-1 W^1/2 K of the last fit's shifts, cells x cells. */
  covarianceInto(out: Float64Array): void {
    const { size: n, prior, root, factor } = this;
    const half = new Float64Array(n * n);
    for (let d = 0; d < n; d += 1) {
      // Column d of L^-1 W^1/2 K.
      for (let c = 0; c < n; c += 1) {
        let sum = root[c] * prior[c * n + d];
        for (let e = 0; e < c; e += 1) sum -= factor[c * n + e] * half[e * n + d];
        half[c * n + d] = sum / factor[c * n + c];
      }
    }
    for (let c = 0; c < n; c += 1) {
      for (let d = 0; d < n; d += 1) {
        let sum = prior[c * n + d];
        for (let e = 0; e < n; e += 1) sum -= half[e * n + c] * half[e * n + d];
        out[c * n + d] = sum;
      }
    }
  }

  /** 1'a, and 1' W^1/2 B^-1 W^1/2 1 = 1' (K + W^-1)^-1 1. */
  private sumUp(): void {
    const { size: n, root, factor, step, a } = this;
    this.score = 0;
    this.information = 0;
    for (let c = 0; c < n; c += 1) {
      step[c] = root[c];
      for (let d = 0; d < c; d += 1) step[c] -= factor[c * n + d] * step[d];
      step[c] /= factor[c * n + c];
      this.score += a[c];
      this.information += step[c] * step[c];
    }
  }

  /** Newton's next a, less the present one, into `step`. */
  private takeAim(cells: readonly Cell[]): void {
    const { size: n, root, factor, aim, step, prior, shift, a } = this;
    this.factorise(cells);
    for (let c = 0; c < n; c += 1) {
      cells[c].curve.at(shift[c]);
      aim[c] = root[c] * root[c] * shift[c] + cells[c].done - cells[c].curve.value;
    }
    for (let c = 0; c < n; c += 1) {
      let sum = 0;
      for (let d = 0; d < n; d += 1) sum += prior[c * n + d] * aim[d];
      step[c] = root[c] * sum;
    }
    for (let c = 0; c < n; c += 1) {
      for (let d = 0; d < c; d += 1) step[c] -= factor[c * n + d] * step[d];
      step[c] /= factor[c * n + c];
    }
    for (let c = n - 1; c >= 0; c -= 1) {
      step[c] /= factor[c * n + c];
      for (let d = 0; d < c; d += 1) step[d] -= factor[c * n + d] * step[c];
    }
    for (let c = 0; c < n; c += 1) step[c] = aim[c] - root[c] * step[c] - a[c];
  }

  /** Goes along `step`; the largest change of a shift. */
  private move(length: number): number {
    const { size: n, a, step, shift, prior } = this;
    for (let c = 0; c < n; c += 1) a[c] += length * step[c];
    let moved = 0;
    for (let c = 0; c < n; c += 1) {
      let sum = 0;
      for (let d = 0; d < n; d += 1) sum += prior[c * n + d] * a[d];
      moved = Math.max(moved, Math.abs(sum - shift[c]));
      shift[c] = sum;
    }
    return moved;
  }

  private objective(cells: readonly Cell[]): number {
    let sum = 0;
    for (let c = 0; c < this.size; c += 1) {
      const { curve, done } = cells[c];
      curve.at(this.shift[c]);
      sum += done * this.shift[c] - curve.integral - 0.5 * this.a[c] * this.shift[c];
    }
    return sum;
  }

  /** W^1/2 at the present shifts, and L of B = I + W^1/2 K W^1/2. */
  private factorise(cells: readonly Cell[]): void {
    const { size: n, root, factor, prior, shift } = this;
    for (let c = 0; c < n; c += 1) {
      cells[c].curve.at(shift[c]);
      root[c] = Math.sqrt(Math.max(cells[c].curve.slope, 0));
    }
    for (let c = 0; c < n; c += 1) {
      for (let d = 0; d <= c; d += 1) factor[c * n + d] = root[c] * prior[c * n + d] * root[d] + (c === d ? 1 : 0);
    }
    choleskyInPlace(factor, n);
  }

  private allocate(n: number): void {
    this.size = n;
    if (n <= this.root.length) return;
    this.root = new Float64Array(n);
    this.factor = new Float64Array(n * n);
    this.a = new Float64Array(n);
    this.aim = new Float64Array(n);
    this.step = new Float64Array(n);
    this.shift = new Float64Array(n);
  }
}
