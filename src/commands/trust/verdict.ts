import type { Question } from '../../chances/trust/answers.ts';
import { offGroups, type PlaceCell, type Quality } from '../../chances/trust/quality.ts';
import type { ClusteredMean } from '../../numeric/scores.ts';
import type { TrustEvidence } from './evidence.ts';

/** `yes`: use it. `care`: use it after looking at what is named. `no`: do not. */
export type Answer = 'yes' | 'care' | 'no';

/** What numbers are used for: the four kinds of entry, and what they are worth. */
export const USES = ['placement', 'reach', 'finish', 'turn', 'runs'] as const;
export type Use = (typeof USES)[number];

/** Something to look at, and what it bears on. */
export interface Finding {
  readonly answer: Exclude<Answer, 'yes'>;
  readonly bearsOn: readonly Use[];
  readonly text: string;
}

/** Can the numbers be used? The worst answer of all uses; findings that weigh most come first. */
export interface Verdict {
  readonly answer: Answer;
  /** Without `turn` and `runs` where no model of theirs was asked. */
  readonly uses: Readonly<Partial<Record<Use, Answer>>>;
  readonly findings: readonly Finding[];
}

/** The rules of the verdict, as docs/guide.md states them. */
export const RULES = {
  fewestGrounders: 1000,
  fewGrounders: 3000,
  /** Standard errors by which a model must be ahead of a plainer one, and beyond which being behind is no chance. */
  errors: 2,
  /** Share of the cells by place that chance and small blemishes may take. */
  placesOff: 0.05,
  fewestInPlace: 50,
  shareFullLow: 0.5,
  shareFullMost: 0.85,
  shareSetAside: 0.02,
  shareFlagged: 0.2,
} as const;

const ALL: readonly Use[] = USES;

/** Which uses a question's answers bear on. */
const BEARS_ON: Readonly<Record<Question, readonly Use[]>> = {
  opening: ['placement'],
  set: ['placement', 'reach'],
  reach: ['placement', 'reach'],
  promise: ['placement', 'reach'],
  finish: ['reach', 'finish'],
  turn: ['turn'],
  pivot: ['turn'],
  'air opening': ['placement'],
  'air reach': ['placement', 'reach'],
  kept: ['placement', 'reach'],
  'extra bases': ['runs'],
  triple: ['runs'],
};
/** Small parts of a chance: where their model tells nothing, the whole is only a little rougher. */
const SMALL_PARTS: readonly Question[] = ['pivot', 'kept', 'triple'];

/** Flags that say that a model had to do with less than it asks for. */
const TELLING_FLAGS: Readonly<Record<string, readonly Use[]>> = {
  no_launch_angle: ['placement', 'reach'],
  no_gather_time: ['reach', 'finish'],
  no_gather_place: ['reach', 'finish'],
  runner_time_from_side_mean: ALL,
  few_like_balls: ['placement'],
  own_clubs_placements: ['placement'],
  later_placements: ['placement'],
};

export function judge(evidence: TrustEvidence): Verdict {
  const findings = [
    ...aboutSize(evidence),
    ...aboutModels(evidence),
    ...aboutQuality(evidence),
    ...aboutData(evidence),
  ];
  findings.sort((a, b) => rank(b.answer) - rank(a.answer));
  const asked = usesOf(evidence);
  const answerFor = (use: Use) =>
    worst(findings.filter(({ bearsOn }) => bearsOn.includes(use)).map(({ answer }) => answer));
  const uses = Object.fromEntries(asked.map((use) => [use, answerFor(use)]));
  const onThem = findings.map((finding) => ({
    ...finding,
    bearsOn: finding.bearsOn.filter((use) => asked.includes(use)),
  }));
  return { answer: worst(Object.values(uses)), uses, findings: onThem };
}

/** The first three, and turn and runs where a model of theirs was asked. */
function usesOf({ quality }: TrustEvidence): Use[] {
  const asked = new Set(quality.flatMap(({ question }) => BEARS_ON[question]));
  return USES.filter((use) => (use !== 'turn' && use !== 'runs') || asked.has(use));
}

const rank = (answer: Answer) => ({ yes: 0, care: 1, no: 2 })[answer];

function worst(answers: readonly Answer[]): Answer {
  return answers.reduce<Answer>((most, answer) => (rank(answer) > rank(most) ? answer : most), 'yes');
}

function* aboutSize({ grounders, data }: TrustEvidence): Generator<Finding> {
  const { fewestGrounders, fewGrounders } = RULES;
  if (grounders < fewestGrounders) {
    yield {
      answer: 'no',
      bearsOn: ALL,
      text: `${grounders} grounders are too few to learn surfaces from: ${fewestGrounders} are the least.`,
    };
  } else if (grounders < fewGrounders) {
    yield {
      answer: 'care',
      bearsOn: ALL,
      text: `${grounders} grounders are few: below ${fewGrounders} the surfaces are drawn toward plain shapes, and the ledger toward everybody being average.`,
    };
  }
  if (data.marked !== grounders) {
    yield {
      answer: 'care',
      bearsOn: ALL,
      text: `The book holds ${grounders} grounders and marks for ${data.marked}: plays came in after the last build. Build it again.`,
    };
  }
}

function* aboutModels({ travel, balance, models }: TrustEvidence): Generator<Finding> {
  for (const { name, record } of models)
    if (record.stopped !== 'converged')
      yield { answer: 'no', bearsOn: ALL, text: `The fit of ${name} did not arrive: ${record.stopped}.` };
  if (travel === null)
    yield {
      answer: 'care',
      bearsOn: ['placement', 'reach'],
      text: 'Too few gather times to learn how long balls travel: a plain physical rule serves, and marks are rougher for it.',
    };
  const shifted = { opening: ['placement'], set: ['placement', 'reach'], gathered: ['reach', 'finish'] } as const;
  for (const mark of ['opening', 'set', 'gathered'] as const) {
    const large = balance.filter(({ large: marks }) => marks.includes(mark));
    if (large.length === 0) continue;
    const most = large.reduce((a, b) => (Math.abs(b[mark]) > Math.abs(a[mark]) ? b : a));
    yield {
      answer: 'care',
      bearsOn: shifted[mark],
      text: `The ${mark} mark had to be shifted in ${large.length} of ${balance.length} groups, by up to ${Math.abs(most[mark]).toFixed(3)} (${most.season}, grade ${most.grade}): outs are right on the whole, single marks are a little off.`,
    };
  }
}

function* aboutQuality({ quality }: TrustEvidence): Generator<Finding> {
  for (const each of quality) {
    if (each.position !== 0) continue;
    const bearsOn = BEARS_ON[each.question];
    for (const rival of ['constant', 'bins'] as const) {
      if (ahead(each.better[rival])) continue;
      const than = rival === 'constant' ? 'one share for every ball' : 'a table by bearing and speed';
      const answer = SMALL_PARTS.includes(each.question) ? 'care' : 'no';
      yield { answer, bearsOn, text: `On games it had not seen, ${each.question} is no better than ${than}.` };
    }
    if (behind(each.better.additive))
      yield {
        answer: 'care',
        bearsOn,
        text: `On games it had not seen, ${each.question} is worse than an additive model of the same things: too many terms for so few plays.`,
      };
    yield* aboutCalibration(each, bearsOn);
  }
}

const ahead = ({ mean, se }: ClusteredMean) => mean > RULES.errors * se;
const behind = ({ mean, se }: ClusteredMean) => mean < -RULES.errors * se;

function* aboutCalibration(quality: Quality, bearsOn: readonly Use[]): Generator<Finding> {
  const deciles = offGroups(quality.deciles);
  if (deciles.length > 0) {
    const { expected, observed } = deciles[0];
    yield {
      answer: 'care',
      bearsOn,
      text: `${quality.question}: ${deciles.length} of ${quality.deciles.length} groups of like chances are off, most where ${percent(expected)} was said and ${percent(observed)} happened.`,
    };
  }
  const known = quality.places.filter(({ n }) => n >= RULES.fewestInPlace);
  const places = offGroups(known);
  if (places.length > RULES.placesOff * known.length)
    yield {
      answer: 'care',
      bearsOn,
      text: `${quality.question}: ${places.length} of ${known.length} places are off, most at ${placeWords(places[0])}.`,
    };
}

function* aboutData({ data }: TrustEvidence): Generator<Finding> {
  const plays = (counts: typeof data.grades, name: string) => counts.find((count) => count.name === name)?.plays ?? 0;
  const full = plays(data.grades, 'full') / data.marked;
  if (full < RULES.shareFullMost) {
    yield {
      answer: full < RULES.shareFullLow ? 'no' : 'care',
      bearsOn: ['placement', 'reach'],
      text: `Only ${percent(full)} of the grounders have everything that placement and reach need (grade full): compare men only where share_full is alike.`,
    };
  }
  for (const { name, plays: flagged } of data.flags) {
    const bearsOn = TELLING_FLAGS[name];
    if (bearsOn !== undefined && flagged > RULES.shareFlagged * data.marked)
      yield {
        answer: 'care',
        bearsOn,
        text: `${percent(flagged / data.marked)} of the grounders carry the flag ${name}.`,
      };
  }
  if (data.setAside > RULES.shareSetAside * data.read) {
    const [first] = data.reasons;
    const why = first === undefined ? '' : `, most often because: ${first.reason}`;
    yield { answer: 'care', bearsOn: ALL, text: `${data.setAside} of ${data.read} rows were set aside${why}.` };
  }
}

const percent = (share: number) => `${(100 * share).toFixed(0)} %`;

/** A place in words, such as `bearing -25 to -15, 100 to 115 ft`. */
export function placeWords({ bearingFrom, bearingTo, across, from, to }: PlaceCell): string {
  return `bearing ${bearingFrom} to ${bearingTo}, ${from} to ${to} ${across === 'speedMph' ? 'mph' : 'ft'}`;
}
