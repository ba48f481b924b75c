import jsep from 'jsep';

/**
 * The arithmetic of a mapping: numbers, source columns, `@target` columns, + - * / ( ), comparisons, and the functions
 * below. It is parsed to this tree, and the tree is all that anything later sees: no text of the user's reaches the
 * database and nothing is ever run as code.
 */
export type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'source'; readonly name: string }
  | { readonly kind: 'target'; readonly name: string }
  | { readonly kind: 'negate'; readonly of: Expression }
  | {
      readonly kind: 'binary';
      readonly operator: BinaryOperator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'call'; readonly name: FunctionName; readonly of: readonly Expression[] };

export const ARITHMETIC = ['+', '-', '*', '/'] as const;
export const COMPARISONS = ['<', '<=', '>', '>=', '==', '!='] as const;
export type BinaryOperator = (typeof ARITHMETIC)[number] | (typeof COMPARISONS)[number];

/** Functions with the least and the greatest number of arguments. */
export const FUNCTIONS = { abs: [1, 1], min: [1, 20], max: [1, 20], if: [3, 3], isnull: [1, 1] } as const;
export type FunctionName = keyof typeof FUNCTIONS;

/** Longest expression and deepest nesting accepted: a mapping is written by hand. */
const LENGTH_LIMIT = 2000;
const DEPTH_LIMIT = 60;

/** What is wrong with an expression, without the place; the reader of mappings adds that. */
export class ExpressionError extends Error {}

jsep.removeAllBinaryOps();
jsep.removeAllUnaryOps();
for (const operator of ARITHMETIC) jsep.addBinaryOp(operator, operator === '+' || operator === '-' ? 9 : 10);
for (const operator of COMPARISONS) jsep.addBinaryOp(operator, 7);
jsep.addUnaryOp('-');
jsep.addUnaryOp('+');
jsep.addUnaryOp('@');
// The words of another language would otherwise be taken for values and could not be column names.
jsep.removeAllLiterals();

const isOperator = (text: string): text is BinaryOperator =>
  (ARITHMETIC as readonly string[]).includes(text) || (COMPARISONS as readonly string[]).includes(text);

function convertCall(node: jsep.CallExpression, depth: number): Expression {
  const name = node.callee.type === 'Identifier' ? String((node.callee as jsep.Identifier).name) : '';
  if (!Object.hasOwn(FUNCTIONS, name)) {
    throw new ExpressionError(`'${name || 'this'}' is not a function; there are ${Object.keys(FUNCTIONS).join(', ')}`);
  }
  const [least, greatest] = FUNCTIONS[name as FunctionName];
  const count = node.arguments.length;
  if (count < least || count > greatest) {
    const wanted = least === greatest ? `${least}` : `${least} to ${greatest}`;
    throw new ExpressionError(`${name}() takes ${wanted} argument${greatest === 1 ? '' : 's'}, not ${count}`);
  }
  return {
    kind: 'call',
    name: name as FunctionName,
    of: node.arguments.map((argument) => convert(argument, depth + 1)),
  };
}

function convert(node: jsep.Expression | null, depth: number): Expression {
  if (depth > DEPTH_LIMIT) throw new ExpressionError(`it is nested more than ${DEPTH_LIMIT} deep`);
  switch (node?.type) {
    case 'Literal': {
      const { value } = node as jsep.Literal;
      if (typeof value === 'number' && Number.isFinite(value)) return { kind: 'number', value };
      if (typeof value === 'string') return { kind: 'source', name: value };
      throw new ExpressionError(`'${String((node as jsep.Literal).raw)}' is not a number`);
    }
    case 'Identifier':
      return { kind: 'source', name: (node as jsep.Identifier).name };
    case 'ThisExpression':
      return { kind: 'source', name: 'this' };
    case 'UnaryExpression': {
      const { operator, argument } = node as jsep.UnaryExpression;
      if (operator === '@') {
        if (argument.type !== 'Identifier')
          throw new ExpressionError("'@' must stand before the name of a target column");
        return { kind: 'target', name: (argument as jsep.Identifier).name };
      }
      const of = convert(argument, depth + 1);
      return operator === '-' ? { kind: 'negate', of } : of;
    }
    case 'BinaryExpression': {
      const { operator, left, right } = node as jsep.BinaryExpression;
      if (!isOperator(operator)) throw new ExpressionError(`'${operator}' is not allowed`);
      return { kind: 'binary', operator, left: convert(left, depth + 1), right: convert(right, depth + 1) };
    }
    case 'CallExpression':
      return convertCall(node as jsep.CallExpression, depth);
    case 'Compound':
      throw new ExpressionError('two values follow each other with nothing between them');
    default:
      throw new ExpressionError('only + - * / ( ), comparisons, numbers, columns and functions are allowed');
  }
}

/**
 * Parses one expression.
 * @throws ExpressionError with the reason in words
 */
export function parseExpression(text: string): Expression {
  if (text.trim() === '') throw new ExpressionError('it is empty');
  if (text.length > LENGTH_LIMIT) throw new ExpressionError(`it is longer than ${LENGTH_LIMIT} characters`);
  let tree: jsep.Expression;
  try {
    tree = jsep(text);
  } catch (thrown) {
    if (thrown instanceof RangeError) throw new ExpressionError(`it is nested more than ${DEPTH_LIMIT} deep`);
    throw new ExpressionError((thrown as Error).message);
  }
  return convert(tree, 0);
}

/** Columns that an expression needs: of the source, as numbers or at all (`isnull`), and targets of the same table. */
export interface Needs {
  readonly numbers: Set<string>;
  readonly texts: Set<string>;
  readonly targets: Set<string>;
}

export function needsOf(
  expression: Expression,
  needs: Needs = { numbers: new Set(), texts: new Set(), targets: new Set() },
): Needs {
  switch (expression.kind) {
    case 'number':
      break;
    case 'source':
      needs.numbers.add(expression.name);
      break;
    case 'target':
      needs.targets.add(expression.name);
      break;
    case 'negate':
      needsOf(expression.of, needs);
      break;
    case 'binary':
      needsOf(expression.left, needs);
      needsOf(expression.right, needs);
      break;
    case 'call': {
      const [first] = expression.of;
      if (expression.name === 'isnull' && first?.kind === 'source') needs.texts.add(first.name);
      else for (const argument of expression.of) needsOf(argument, needs);
    }
  }
  return needs;
}
