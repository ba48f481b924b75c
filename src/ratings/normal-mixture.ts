import type { Estimate } from './man-posterior.ts';

/** A mixture of normals, kept as its two first moments. Weights need not add up to 1. */
export class NormalMixture {
  private weights = 0;
  private sum = 0;
  private squares = 0;
  private variances = 0;

  add(mean: number, variance: number, weight = 1): void {
    this.weights += weight;
    this.sum += weight * mean;
    this.squares += weight * mean * mean;
    this.variances += weight * Math.max(variance, 0);
  }

  estimate(): Estimate {
    const mean = this.sum / this.weights;
    const between = Math.max(this.squares / this.weights - mean * mean, 0);
    return { mean, sd: Math.sqrt(this.variances / this.weights + between) };
  }
}
