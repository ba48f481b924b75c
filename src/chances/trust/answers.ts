/**
 * What is asked of the models. Of grounders: `opening` (the direct fit) and `set` mark, `reach`, `promise` (an out, if he will
 * gather), `finish`, `turn` (a second out, once gathered) and `pivot` (once on its way to him who could turn it). In the air:
 * `air opening` (the direct fit), `air reach`, `kept`. Of hits: `extra bases` (more than a single) and `triple` (of those,
 * three bases), into which the chances of the three hits part.
 */
const QUESTIONS = [
  'opening',
  'set',
  'reach',
  'promise',
  'finish',
  'turn',
  'pivot',
  'air opening',
  'air reach',
  'kept',
  'extra bases',
  'triple',
] as const;
export type Question = (typeof QUESTIONS)[number];

/** The model of the book, and three plainer ones beside it. */
export const RIVALS = ['constant', 'bins', 'additive'] as const;
export type Rival = (typeof RIVALS)[number];
export type Answerer = 'model' | Rival;

/**
 * Chances given to rows that the model giving them had not seen, and what happened. Columns are of one length; a number
 * that a question does not have (the gap of an opening) is NaN.
 */
export interface Answers {
  readonly question: Question;
  /** 1 to 9; 0 for a question about the whole play, or all positions together. */
  readonly position: number;
  readonly count: number;
  /** Index of the game. */
  readonly game: Float64Array;
  readonly outcome: Float64Array;
  readonly model: Float64Array;
  readonly constant: Float64Array;
  readonly bins: Float64Array;
  readonly additive: Float64Array;
  readonly bearingDeg: Float64Array;
  readonly speedMph: Float64Array;
  /** From home: where the ball passes him (reach, promise), was gathered (finish, turn, pivot) or comes down (in the air). */
  readonly distanceFt: Float64Array;
  readonly gapFt: Float64Array;
  readonly arrivalS: Float64Array;
}

export type AnswerColumn = Exclude<keyof Answers, 'question' | 'position' | 'count'>;

const COLUMNS: readonly AnswerColumn[] = [
  'game',
  'outcome',
  'model',
  'constant',
  'bins',
  'additive',
  'bearingDeg',
  'speedMph',
  'distanceFt',
  'gapFt',
  'arrivalS',
];

/** Collects the answers of one fold after another. */
export class AnswerDraft {
  private readonly columns = Object.fromEntries(COLUMNS.map((name) => [name, [] as number[]])) as Record<
    AnswerColumn,
    number[]
  >;
  readonly question: Question;
  readonly position: number;

  constructor(question: Question, position: number) {
    this.question = question;
    this.position = position;
  }

  /** A row; columns that are left out are NaN. */
  add(row: Readonly<Partial<Record<AnswerColumn, number>>>): void {
    for (const name of COLUMNS) this.columns[name].push(row[name] ?? Number.NaN);
  }

  answers(): Answers {
    const { question, position, columns } = this;
    const arrays = Object.fromEntries(COLUMNS.map((name) => [name, Float64Array.from(columns[name])]));
    return { question, position, count: columns.game.length, ...(arrays as Record<AnswerColumn, Float64Array>) };
  }
}

/** Answers of several positions as one. Throws RangeError for none. */
export function pool(parts: readonly Answers[]): Answers {
  if (parts.length === 0) throw new RangeError('there are no answers to put together');
  const count = parts.reduce((sum, part) => sum + part.count, 0);
  const arrays = Object.fromEntries(
    COLUMNS.map((name) => {
      const joined = new Float64Array(count);
      let at = 0;
      for (const part of parts) {
        joined.set(part[name], at);
        at += part.count;
      }
      return [name, joined];
    }),
  );
  return { question: parts[0].question, position: 0, count, ...(arrays as Record<AnswerColumn, Float64Array>) };
}
