import type { Expression } from './expression.ts';

/** How the columns of an expression are written in SQL. */
export interface ExpressionColumns {
  /** A source column as a number (NULL when empty). */
  number(name: string): string;
  /** A source column as text (NULL when empty), for `isnull`. */
  text(name: string): string;
  /** A target column of the same table, in the project's unit. */
  target(name: string): string;
}

const COMPARISON_SQL = { '<': '<', '<=': '<=', '>': '>', '>=': '>=', '==': '=', '!=': '<>' } as const;

/** A number literal of full precision that the engine takes as a double. */
export function numberSql(value: number): string {
  return `(${value.toString()}::DOUBLE)`;
}

/**
 * An expression as SQL of type DOUBLE. An empty cell makes the result empty, except under `isnull` and in the branch of
 * `if` that is not taken; `min` and `max` skip empty cells. Division by zero is empty. A comparison is 1 or 0.
 */
export function expressionSql(expression: Expression, columns: ExpressionColumns): string {
  const sql = (part: Expression) => expressionSql(part, columns);
  switch (expression.kind) {
    case 'number':
      return numberSql(expression.value);
    case 'source':
      return columns.number(expression.name);
    case 'target':
      return columns.target(expression.name);
    case 'negate':
      return `(- ${sql(expression.of)})`;
    case 'binary': {
      const { operator } = expression;
      const left = sql(expression.left);
      const right = sql(expression.right);
      if (operator === '/') return `(${left} / nullif(${right}, 0))`;
      if (operator === '+' || operator === '-' || operator === '*') return `(${left} ${operator} ${right})`;
      return `((${left} ${COMPARISON_SQL[operator]} ${right})::INTEGER::DOUBLE)`;
    }
    case 'call':
      return callSql(expression, columns, sql);
  }
}

function callSql(
  call: Extract<Expression, { kind: 'call' }>,
  columns: ExpressionColumns,
  sql: (part: Expression) => string,
): string {
  const [first, second, third] = call.of;
  switch (call.name) {
    case 'abs':
      return `abs(${sql(first!)})`;
    case 'min':
      return `least(${call.of.map(sql).join(', ')})`;
    case 'max':
      return `greatest(${call.of.map(sql).join(', ')})`;
    case 'if':
      return `(CASE WHEN ${sql(first!)} <> 0 THEN ${sql(second!)} ELSE ${sql(third!)} END)`;
    case 'isnull': {
      const of = first!.kind === 'source' ? columns.text(first!.name) : sql(first!);
      return `((${of} IS NULL)::INTEGER::DOUBLE)`;
    }
  }
}
