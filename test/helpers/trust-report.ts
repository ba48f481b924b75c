import { AnswerDraft, type Answers, pool, type Question } from '../../src/chances/trust/answers.ts';
import { qualityOf, reachResiduals } from '../../src/chances/trust/quality.ts';
import type { TrustEvidence } from '../../src/commands/trust/evidence.ts';
import { logit } from '../../src/numeric/logistic.ts';
import { createRandom } from '../../src/numeric/random.ts';

/** Answers to invented rows. `bend` moves the model's logits away from the chances by which things happened. */
export function inventedAnswers(question: Question, position: number, rows: number, bend = 0): Answers {
  const random = createRandom(7).fork(`${question} ${position}`);
  const draft = new AnswerDraft(question, position);
  for (let i = 0; i < rows; i += 1) {
    const bearingDeg = -45 + 90 * random.next();
    const gapFt = -60 + 120 * random.next();
    const truth = 1 / (1 + Math.exp(Math.abs(gapFt) / 6 - 4));
    const outcome = random.next() < truth ? 1 : 0;
    const model = 1 / (1 + Math.exp(-logit(Math.min(Math.max(truth, 1e-6), 1 - 1e-6)) - bend));
    draft.add({
      game: Math.floor(i / 20),
      outcome,
      model,
      constant: 0.4,
      bins: 0.8 * truth + 0.08,
      additive: 0.9 * truth + 0.04,
      bearingDeg,
      speedMph: 40 + 70 * random.next(),
      distanceFt: 60 + 90 * random.next(),
      gapFt,
      arrivalS: 0.8 + 1.4 * random.next(),
    });
  }
  return draft.answers();
}

/** Evidence in which there is nothing to complain of, but for what `changes` says. */
export function inventedEvidence(changes: Partial<TrustEvidence> = {}, bend = 0): TrustEvidence {
  const ask = (question: Question, position: number) => inventedAnswers(question, position, 4000, bend);
  const byPosition = (question: Question) => [4, 6].map((position) => ask(question, position));
  const reach = byPosition('reach');
  const parts = [reach, byPosition('promise'), byPosition('finish')];
  return {
    book: 'my-book',
    grounders: 9000,
    games: 400,
    folds: 5,
    models: [
      {
        name: 'reach 6',
        terms: ['te(gap, arrival)', 'random(surface)'],
        coefficients: 212,
        edf: 43.21,
        record: {
          rows: 15000,
          weight: 15000,
          iterations: 22,
          startObjective: 20000,
          endObjective: 5200.5,
          deviance: 5190.25,
          gradientNorm: 3e-16,
          smoothingGradient: 4e-3,
          tolerance: 1e-10,
          stopped: 'converged',
          notes: ['some rows are certain'],
        },
      },
    ],
    quality: [ask('opening', 0), ask('set', 0), ...parts.flatMap((answers) => [pool(answers), ...answers])].map(
      qualityOf,
    ),
    travel: {
      count: 7000,
      rmsS: { model: 0.161, rule: 0.27, constant: 0.206, bins: 0.19, additive: 0.165 },
      biasS: -0.004,
      byDistance: [{ fromFt: 100, n: 7000, biasS: -0.004 }],
    },
    residuals: reach.map((answers) => ({ position: answers.position, cells: reachResiduals(answers) })),
    balance: [
      { season: 2031, grade: 'full', plays: 8500, opening: 0.021, set: 0.034, gathered: -0.011, large: [] },
      { season: 2031, grade: 'whole', plays: 150, opening: -0.2, set: 0, gathered: 0, large: [] },
    ],
    data: {
      information: [],
      marked: 9000,
      grades: [
        { name: 'full', plays: 8500 },
        { name: 'ground', plays: 350 },
        { name: 'whole', plays: 150 },
      ],
      flags: [{ name: 'no_gather_time', plays: 270 }],
      read: 200_000,
      loaded: 199_990,
      setAside: 10,
      reasons: [{ table: 'plays', column: 'exit_speed_mph', reason: 'not a number', rows: 10 }],
    },
    ...changes,
  };
}
