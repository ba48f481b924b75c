import { BASE_SPOTS, INFIELD_ARC_FT, PITCHERS_PLATE_FT } from '../diamond/field.ts';
import type { Plan } from './plan-types.ts';
import { sayMove } from './say-move.ts';

/** What a pocket card says; a printer lays it out as it likes. */
export interface PlanCard {
  readonly title: string;
  readonly situation: string;
  readonly worth: string;
  readonly men: readonly {
    readonly position: number;
    readonly name: string;
    readonly move: string;
    readonly spot: string;
  }[];
  readonly warnings: readonly string[];
}

export const OUTS_WORDS = ['nobody out', 'one out', 'two out'] as const;

/** Words for the bases in `runners`. */
export function sayRunners(runners: string): string {
  const names = ['first', 'second', 'third'].filter((_, k) => runners[k] !== '-');
  return names.length === 0 ? 'nobody on' : `runner${names.length > 1 ? 's' : ''} on ${names.join(' and ')}`;
}

/** How many runs a plan gains, with its interval. */
export function sayGain({ gain_runs_per_100: { value, lo80, hi80 } }: Plan): string {
  return `${signed(value)} runs per 100 balls against the even spots (80 %: ${signed(lo80)} to ${signed(hi80)})`;
}

export function signed(value: number): string {
  const text = value.toFixed(1);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text.replace(/^-(0\.0)$/, '$1');
}

/** Depth from home and bearing, as a man paces it off. */
export function saySpot(xFt: number, yFt: number): string {
  const degrees = Math.round((Math.atan2(xFt, yFt) * 180) / Math.PI);
  const side = degrees === 0 ? 'over second' : `${Math.abs(degrees)}° toward ${degrees > 0 ? 'first' : 'third'}`;
  return `${Math.hypot(xFt, yFt).toFixed(0)} ft, ${side}`;
}

/** The card of a plan; `nameOf` gives a person's name for his id. */
export function planCard(plan: Plan, nameOf: (id: string) => string): PlanCard {
  return {
    title: `${nameOf(plan.batter)} (bats ${plan.side === 'L' ? 'left' : 'right'})`,
    situation: `${plan.defence} · ${OUTS_WORDS[plan.outs]}, ${sayRunners(plan.runners)} · ${plan.rule === 'open' ? 'no placement rule' : 'two a side'} · ${plan.balls} balls seen`,
    worth: sayGain(plan),
    men: plan.starts.map((start) => ({
      position: start.position,
      name: start.fielder_id === null ? '' : nameOf(start.fielder_id),
      move: sayMove(start.even_x_ft, start.even_y_ft, start.start_x_ft, start.start_y_ft),
      spot: saySpot(start.start_x_ft, start.start_y_ft),
    })),
    warnings: plan.warnings,
  };
}

const WIDTH = 420;
const FIELD_HEIGHT = 300;
const MARGIN = 18;
const LINE = 17;
const INK = '#1D2327';
const PAPER = '#FBF9F4';
const OCHRE = '#B8791A';
const GREY = '#8A8F93';

/** The card as one SVG picture: the diamond to scale with even spots as rings, planned starts as discs, moves as thin lines. */
export function planCardSvg(plan: Plan, nameOf: (id: string) => string): string {
  const card = planCard(plan, nameOf);
  const outfield = plan.starts.some(({ position }) => position >= 7);
  const scale = (FIELD_HEIGHT - MARGIN) / (outfield ? 350 : 185);
  const x = (feet: number) => (WIDTH / 2 + feet * scale).toFixed(1);
  const y = (feet: number) => (FIELD_HEIGHT + 62 - feet * scale).toFixed(1);
  const text = (left: number, top: number, words: string, attributes = '') =>
    `<text x="${left}" y="${top}" ${attributes}>${escapeXml(words)}</text>`;
  const bases = BASE_SPOTS.slice(1);
  const field = [
    `<path d="M${x(0)} ${y(0)}L${x(-130)} ${y(130)}M${x(0)} ${y(0)}L${x(130)} ${y(130)}" stroke="${GREY}" fill="none"/>`,
    `<path d="M${bases.map((base) => `${x(base.x)} ${y(base.y)}`).join('L')}Z" stroke="${GREY}" fill="none"/>`,
    `<circle cx="${x(0)}" cy="${y(PITCHERS_PLATE_FT)}" r="${(INFIELD_ARC_FT * scale).toFixed(1)}" stroke="${GREY}" stroke-dasharray="2 4" fill="none"/>`,
    ...bases.map((base) => `<circle cx="${x(base.x)}" cy="${y(base.y)}" r="3" fill="${INK}"/>`),
    ...plan.starts.map((s) =>
      [
        `<line x1="${x(s.even_x_ft)}" y1="${y(s.even_y_ft)}" x2="${x(s.start_x_ft)}" y2="${y(s.start_y_ft)}" stroke="${OCHRE}"/>`,
        `<circle cx="${x(s.even_x_ft)}" cy="${y(s.even_y_ft)}" r="6" stroke="${INK}" fill="${PAPER}"/>`,
        `<circle cx="${x(s.start_x_ft)}" cy="${y(s.start_y_ft)}" r="9" fill="${INK}"/>`,
        `<text x="${x(s.start_x_ft)}" y="${(Number(y(s.start_y_ft)) + 4).toFixed(1)}" fill="${PAPER}" font-size="12" text-anchor="middle">${s.position}</text>`,
      ].join(''),
    ),
  ];
  let top = FIELD_HEIGHT + 90;
  const men = card.men.map((man) => {
    const row =
      text(MARGIN, top, `${man.position}  ${cut(man.name, 22)}`, 'font-size="12"') +
      text(180, top, man.move, 'font-size="12"') +
      text(WIDTH - MARGIN, top, man.spot, `font-size="11" fill="${GREY}" text-anchor="end"`);
    top += LINE;
    return row;
  });
  const warnings = card.warnings
    .flatMap((warning) => wrap(`! ${warning}`, 68))
    .map((line) => {
      top += 14;
      return text(MARGIN, top, line, 'font-size="10.5"');
    });
  const height = top + MARGIN;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" font-family="Inter, sans-serif" fill="${INK}">`,
    `<rect width="${WIDTH}" height="${height}" fill="${PAPER}"/>`,
    text(MARGIN, 26, cut(card.title, 46), 'font-size="16" font-weight="600"'),
    text(MARGIN, 43, cut(card.situation, 74), 'font-size="11"'),
    text(MARGIN, 59, card.worth, 'font-size="11"'),
    ...field,
    ...men,
    ...warnings,
    '</svg>',
    '',
  ].join('\n');
}

function cut(words: string, most: number): string {
  return words.length <= most ? words : `${words.slice(0, most - 1)}…`;
}

function wrap(words: string, most: number): string[] {
  const lines: string[] = [''];
  for (const word of words.split(' ')) {
    const line = lines[lines.length - 1];
    if (line !== '' && line.length + word.length + 1 > most) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines;
}

function escapeXml(words: string): string {
  return words
    .replace(/\p{Cc}/gu, '·')
    .replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);
}
