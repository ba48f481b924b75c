import { INCOMING_TABLES, START_LIMITS } from '../book/schema.ts';
import type { ColumnRule, RowRule, Section } from './mapping.ts';
import { listWords } from './nearest-word.ts';
import { FAULT_MARK } from './row-checks.ts';

/** Why a row was set aside: the column of the data contract (empty when it is the row as a whole) and the reason. */
export interface Reason {
  readonly column: string;
  readonly reason: string;
}

const SHOWN = 80;

function show(value: string): string {
  const line = value.replaceAll(/\s+/g, ' ');
  return `'${line.length > SHOWN ? `${line.slice(0, SHOWN)}...` : line}'`;
}

/** Where the mapping takes a column from, for the reader of a reason. */
function sourceOf(rule: RowRule | undefined, column: string): { rule: ColumnRule | undefined; words: string } {
  const spot = rule?.spots.find(({ name }) => column === `${name}_x_ft` || column === `${name}_y_ft`);
  const found = rule?.columns.get(column) ?? (column.endsWith('_x_ft') ? spot?.x : spot?.y);
  if (found === undefined) return { rule: undefined, words: '' };
  if (found.kind === 'expression') return { rule: found, words: ` (from the expression ${found.text})` };
  if (found.kind === 'constant') return { rule: found, words: ' (a constant of the mapping)' };
  if (found.kind === 'join') return { rule: found, words: ` (joined of ${listWords(found.from)})` };
  return { rule: found, words: found.from === column ? '' : ` (column '${found.from}')` };
}

function wrongType(rule: ColumnRule | undefined, type: string, value: string): string {
  if (rule?.kind === 'words')
    return `${show(value)} is not in the value table; it has ${listWords([...rule.values.keys()])}`;
  if (rule?.kind === 'pattern') return `${show(value)} does not give a ${type} with the pattern ${rule.pattern}`;
  switch (type) {
    case 'date': {
      const format = rule?.kind === 'date' ? ` written as ${rule.format}` : ' written as YYYY-MM-DD';
      return `${show(value)} is not a date${format}`;
    }
    case 'boolean':
      return `${show(value)} is neither true nor false`;
    case 'integer':
      return `${show(value)} is not a whole number`;
    default:
      return `${show(value)} is not a number${/^-?\d+,\d+$/.test(value) ? ' (decimal comma? then set `decimal: ","`)' : ''}`;
  }
}

const NOT_FINITE = /^-?(nan|inf(inity)?)$/i;

/** Words for the faults that take more than one row to see (judge-*.ts). `placeOf` tells where a staged row stands. */
export function describeLoadFault(fault: string, placeOf: (rowNo: number) => string): Reason | undefined {
  const [kind = '', value = '', other = ''] = fault.split(FAULT_MARK);
  switch (kind) {
    case 'conflict':
      return {
        column: value,
        reason: `conflict: the book has this row with other values in ${value}; intake with --replace takes this one`,
      };
    case 'twice':
      return {
        column: value,
        reason: `conflict: ${placeOf(Number(other))} is the same row with other values in ${value}`,
      };
    case 'batter_side':
      return {
        column: 'batter_id',
        reason: `${show(value)} bats here against his own side: in this game he is with ${show(other)}, which is fielding`,
      };
    case 'pitcher_side':
      return {
        column: 'pitcher_id',
        reason: `${show(value)} pitches here against his own side: in this game he is with ${show(other)}, which is batting`,
      };
    case 'lost_play':
      return { column: 'play_id', reason: `the play ${show(value)} was set aside, and its starts with it` };
    case 'no_play':
      return { column: 'play_id', reason: `there is no play ${show(value)}, neither in this intake nor in the book` };
    case 'is_batter':
      return { column: 'fielder_id', reason: `${show(value)} is the batter of this play and cannot field it` };
    case 'wrong_side':
      return {
        column: 'fielder_id',
        reason: `${show(value)} is on the batting side: in this game he is with ${show(other)}`,
      };
    case 'two_places':
      return { column: 'fielder_id', reason: `${show(value)} stands at position ${other} of this play already` };
    default:
      return undefined;
  }
}

/** Puts a fault of the staging query (row-checks.ts) in words. */
export function describeRowFault(section: Section, ruleIndex: number, fault: string): Reason {
  const [kind = '', index = '', value = ''] = fault.split(FAULT_MARK);
  if (kind === 'broken') return { column: '', reason: 'the line is not a JSON object' };
  const column = INCOMING_TABLES[section.table].columns[Number(index)]!;
  const { name, type, min, max, words = [] } = column;
  const source = sourceOf(section.rows[ruleIndex], name);
  const about = (reason: string): Reason => ({ column: name, reason: `${name}${source.words}: ${reason}` });
  switch (kind) {
    case 'bad':
      return about(wrongType(source.rule, type, value));
    case 'missing':
      return about('required, and empty');
    case 'date':
      return about(`the date ${value} is not possible`);
    case 'range': {
      if (NOT_FINITE.test(value)) return about(`${show(value)} is not a finite number`);
      if (name === 'position' || name === 'touched_by' || name === 'gathered_by') {
        return about(`${value} is not a position; they are 1 to 9`);
      }
      return about(`${value} is outside the range ${min} to ${max}`);
    }
    case 'word':
      return about(`${show(value)} is not a word it takes; they are ${listWords(words)}`);
    case 'half':
      return about('a spot needs both x and y, and one of them is empty');
    case 'one_team':
      return about(`${show(value)} is batting and fielding at once`);
    case 'outs':
      return about(`outs_before + outs_made = ${value}, and an inning has three`);
    case 'no_out':
      return about("the result is 'out' and outs_made is 0");
    case 'own_pitch':
      return about(`${show(value)} pitches to himself: he is the batter too`);
    case 'far':
      return about(`the start is ${value} ft from home; nobody starts farther than ${START_LIMITS.fromHomeFt} ft away`);
    default:
      return { column: name, reason: fault };
  }
}
