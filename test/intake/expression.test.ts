import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { IN_MEMORY, openDuckDbStore } from '../../src/book/duckdb-store.ts';
import { quoteName } from '../../src/book/sql-text.ts';
import type { Store } from '../../src/book/store.ts';
import { type Expression, parseExpression } from '../../src/intake/expression.ts';
import { expressionSql } from '../../src/intake/expression-sql.ts';

type Row = Record<string, number | null>;

/** What an expression means, written down a second time and as plainly as possible. */
function evaluate(text: Tree, row: Row): number | null {
  switch (text.op) {
    case 'number':
      return text.value;
    case 'column':
      return row[text.name]!;
    case 'isnull':
      return evaluate(text.of[0]!, row) === null ? 1 : 0;
    case 'if': {
      const test = evaluate(text.of[0]!, row);
      return evaluate(test !== null && test !== 0 ? text.of[1]! : text.of[2]!, row);
    }
  }
  const values = text.of.map((part) => evaluate(part, row));
  if (text.op === 'min' || text.op === 'max') {
    const there = values.filter((value) => value !== null);
    return there.length === 0 ? null : Math[text.op](...there);
  }
  if (values.includes(null)) return null;
  const [a, b] = values as number[];
  switch (text.op) {
    case '+':
      return a! + b!;
    case '-':
      return a! - b!;
    case '*':
      return a! * b!;
    case '/':
      return b === 0 ? null : a! / b!;
    case '<':
      return a! < b! ? 1 : 0;
    case '>=':
      return a! >= b! ? 1 : 0;
    case '==':
      return a! === b! ? 1 : 0;
    case '!=':
      return a! !== b! ? 1 : 0;
    case 'negate':
      return -a!;
    case 'abs':
      return Math.abs(a!);
  }
  throw new Error(text.op);
}

type Tree = { op: string; of: Tree[]; value: number; name: string };
const BINARY = ['+', '-', '*', '/', '<', '>=', '==', '!='];

function write(tree: Tree): string {
  const [a, b] = tree.of;
  if (tree.op === 'number') return tree.value < 0 ? `(${tree.value})` : `${tree.value}`;
  if (tree.op === 'column') return /^[a-z]$/.test(tree.name) ? tree.name : `'${tree.name}'`;
  if (tree.op === 'negate') return `(-${write(a!)})`;
  if (BINARY.includes(tree.op)) return `(${write(a!)} ${tree.op} ${write(b!)})`;
  return `${tree.op}(${tree.of.map(write).join(', ')})`;
}

const COLUMNS = ['a', 'b', 'speed (m/s)', 'drop table'];
const tree = fc.letrec<{ tree: Tree }>((tie) => {
  const node = (op: string, count: number) =>
    fc.tuple(...Array.from({ length: count }, () => tie('tree'))).map((of) => ({ op, of, value: 0, name: '' }));
  return {
    tree: fc.oneof(
      { maxDepth: 5, depthIdentifier: 'tree' },
      fc.integer({ min: -9, max: 9 }).map((value) => ({ op: 'number', of: [], value, name: '' })),
      fc.constantFrom(...COLUMNS).map((name) => ({ op: 'column', of: [], value: 0, name })),
      ...BINARY.map((op) => node(op, 2)),
      node('negate', 1),
      node('abs', 1),
      node('isnull', 1),
      node('min', 2),
      node('max', 3),
      node('if', 3),
    ),
  };
}).tree;
const row = fc.record(Object.fromEntries(COLUMNS.map((name) => [name, fc.option(fc.integer({ min: -4, max: 4 }))])));

const asSql = (expression: Expression) =>
  expressionSql(expression, { number: quoteName, text: quoteName, target: (name) => quoteName(`@${name}`) });

let store: Store;
beforeAll(async () => {
  store = await openDuckDbStore(IN_MEMORY);
});
afterAll(() => store.close());

test('the SQL of an expression gives what the expression means', async () => {
  await fc.assert(
    fc.asyncProperty(tree, row, async (parts, values) => {
      const columns = COLUMNS.map((name) => `${values[name] ?? 'NULL'}::DOUBLE AS ${quoteName(name)}`);
      const [answer] = await store.rows(
        `SELECT ${asSql(parseExpression(write(parts)))} AS v FROM (SELECT ${columns.join(', ')})`,
      );
      const wanted = evaluate(parts, values as Row);
      if (wanted === null || answer!.v === null) expect(answer!.v).toBe(wanted);
      else expect(answer!.v).toBeCloseTo(wanted, 9);
    }),
    { numRuns: 250 },
  );
});

test.each([
  ['2 + 3 * 4', 14],
  ['(2 + 3) * 4', 20],
  ['8 - 3 - 2', 3],
  ['8 / 4 / 2', 1],
  ['-2 * -3', 6],
  ['1 + 2 < 4', 1],
  ['.5 + 1.5e1', 15.5],
  ['max(1, 2, 3) - min(4, 5)', -1],
])('%s = %d', async (text, value) => {
  expect((await store.rows(`SELECT ${asSql(parseExpression(text))} AS v`))[0]!.v).toBe(value);
});

describe('is refused', () => {
  test.each([
    ['', /empty/],
    ['a b', /nothing between/],
    ['a; DROP TABLE plays', /nothing between/],
    ['a, b', /nothing between|only/],
    ['process.exit(1)', /not a function/],
    ['a.b', /only \+ - \* \//],
    ['a[0]', /only/],
    ['[1]', /only/],
    ['(function(){})()', /only|not a function|nothing between|Unclosed|Unexpected|Expected/],
    ['sqrt(a)', /'sqrt' is not a function; there are abs, min, max, if, isnull/],
    ['constructor(a)', /not a function/],
    ['toString()', /not a function/],
    ['abs(a, b)', /takes 1 argument, not 2/],
    ['if(a, b)', /takes 3 arguments, not 2/],
    ['a = b', /Unexpected|not allowed|nothing between/],
    ['a && b', /Unexpected|not allowed|nothing between/],
    ['a ? b : c', /only|Unexpected|not allowed/],
    ['a ** b', /Unexpected|Expected/],
    ['1e999', /not a number/],
    ['(a', /Unclosed/],
    ["'a", /Unclosed quote/],
    ['@(a + 1)', /must stand before/],
    ['`a`', /./],
    ['('.repeat(1900), /./],
    [`${'-'.repeat(100)}a`, /nested/],
    ['a+'.repeat(1500), /longer than/],
  ])('%s', (text, reason) => {
    expect(() => parseExpression(text)).toThrow(reason);
  });
});

test('any text gives a tree or a reason, never anything else', () => {
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'ab1.+-*/()<>=!,\'"@ [];'.split('')) })),
      (text) => {
        try {
          asSql(parseExpression(text));
        } catch (thrown) {
          expect((thrown as Error).constructor.name).toBe('ExpressionError');
        }
      },
    ),
    { numRuns: 500 },
  );
});

test('names of columns cannot leave their quotes', async () => {
  await fc.assert(
    fc.asyncProperty(fc.string({ unit: fc.constantFrom(...'ab"; -)(\\`$'.split('')), minLength: 1 }), async (name) => {
      const [found] =
        await store.rows(`SELECT ${asSql(parseExpression(`2 * ${JSON.stringify(name).replaceAll('$', '$')}`))} AS v
        FROM (SELECT 21::DOUBLE AS ${quoteName(name)})`);
      expect(found!.v).toBe(42);
    }),
    { numRuns: 60 },
  );
});
