import type { EntryKind } from '../../../src/ledger/entry-kinds.ts';
import { OUTS_WORDS, POSITION_NAMES, runnersWords, whereWords } from '../../../src/ledger/play-words.ts';
import type { Trial } from '../../../src/ledger/what-if.ts';
import type { Explanation, PlayScene } from '../../api/plays.ts';
import type { MarkNotes, StairEntry, StairMarks } from '../../charts/stair-rows.ts';
import { chance } from '../../state/number-text.ts';
import { positionMan } from '../../words/positions.ts';

const KIND_NAMES: Readonly<Record<string, string>> = { ground: 'Grounder', liner: 'Liner', fly: 'Fly', popup: 'Popup' };
const DATE = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });

export function dateText(isoDate: string): string {
  return DATE.format(new Date(`${isoDate}T00:00:00Z`));
}

export function kindName(ballKind: string): string {
  return KIND_NAMES[ballKind] ?? ballKind;
}

/** A ball's kind and where it went. */
export function ballWords(ballKind: string, bearingDeg: number, landingFt: number): string {
  const where = whereWords(ballKind, bearingDeg, landingFt);
  return where === undefined ? kindName(ballKind) : `${kindName(ballKind)} ${where}`;
}

/** `Grounder in the hole between third and short`. */
export function ballTitle({ ballKind, bearingDeg }: Explanation, { landing }: PlayScene): string {
  const distance = Math.hypot(landing.xFt, landing.yFt);
  return ballWords(ballKind, bearingDeg, distance);
}

/** What is known of the play in one line. */
export function situationText(e: Explanation): string {
  const parts = [
    `${e.battingTeam} batting, ${e.fieldingTeam} in the field`,
    `inning ${e.inning}, ${OUTS_WORDS[e.outsBefore]}, ${runnersWords(e.bases)}`,
    `${e.batter} batting ${e.batterSide === 'L' ? 'left' : 'right'}`,
  ];
  if (!Number.isNaN(e.exitSpeedMph)) parts.push(`${e.exitSpeedMph.toFixed(0)} mph`);
  if (!Number.isNaN(e.bearingDeg)) parts.push(`bearing ${degrees(e.bearingDeg)}`);
  if (!Number.isNaN(e.launchAngleDeg)) parts.push(`launch ${degrees(e.launchAngleDeg)}`);
  if (!Number.isNaN(e.batterToFirstS)) parts.push(`${e.batterToFirstS.toFixed(2)} s to first`);
  return parts.join(' · ');
}

function degrees(value: number): string {
  return `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(0)}°`;
}

export function marksOf({ marks, grade }: Explanation): StairMarks {
  return {
    opening: marks.opening,
    set: grade === 'full' ? marks.set : null,
    gathered: grade === 'whole' ? null : marks.gathered,
    closed: marks.closed,
  };
}

/** A play's entries as steps: placements by size, the rest in chance order. */
export function stepsOf(e: Explanation): StairEntry[] {
  const turnOf = (position: number) => e.defenders.findIndex((man) => man.position === position);
  const steps = e.entries.map(({ position, name, kind, outs, runs }) => ({
    position,
    kind: kind as EntryKind,
    who: name ?? POSITION_NAMES[position]!,
    outs,
    runs,
  }));
  return [
    ...steps.filter(({ kind }) => kind === 'placement').sort((a, b) => Math.abs(b.outs) - Math.abs(a.outs)),
    ...steps.filter(({ kind }) => kind !== 'placement').sort((a, b) => turnOf(a.position) - turnOf(b.position)),
  ];
}

/** The placements of a trial as steps. */
export function trialSteps({ men }: Trial, nameOf: (position: number) => string): StairEntry[] {
  return men
    .filter(({ placementOuts }) => placementOuts !== 0)
    .sort((a, b) => Math.abs(b.placementOuts) - Math.abs(a.placementOuts))
    .map(({ position, placementOuts, placementRuns }) => ({
      kind: 'placement',
      who: nameOf(position),
      outs: placementOuts,
      runs: placementRuns,
    }));
}

export function markNotes({ ballKind, gather, touchedBy, marks }: Explanation): MarkNotes {
  const touched = touchedBy > 0 ? `touched by ${POSITION_NAMES[touchedBy]}` : '';
  const gathered =
    ballKind === 'ground'
      ? gather !== null
        ? 'ball in hand'
        : touched || 'by nobody'
      : marks.gathered === 1
        ? 'caught'
        : touched === ''
          ? 'it fell'
          : `${touched}, dropped`;
  return {
    opening: 'ball and batter only',
    set: 'where they stood',
    gathered,
    closed: marks.closed === 1 ? 'an out' : 'no out',
  };
}

/** The play in sentences, for somebody who doubts the numbers. */
export function storySentences(e: Explanation, scene: PlayScene): string[] {
  const { lenders, low, high } = e.opening;
  const sentences: string[] = [];
  const side = e.batterSide === 'L' ? 'left' : 'right';
  if (lenders.length === 0) {
    sentences.push(
      `By the ball alone it is an out ${chance(e.marks.opening)} of the time: no placement on a like ball is known.`,
    );
  } else {
    sentences.push(
      `Placed as other defences were on ${lenders.length} like balls from ${side}-side batters, it is an out ${chance(e.marks.opening)} of the time: from ${chance(low)} with the worst of those placements to ${chance(high)} with the best.`,
    );
  }
  if (e.grade === 'full') sentences.push(`Where ${e.fieldingTeam} stood, ${chance(e.marks.set)}.`);
  else if (e.grade === 'ground')
    sentences.push(
      'A start, the bearing or the speed was not recorded, so placement and reach are one entry, shared by the men.',
    );
  else sentences.push('Only the result was recorded, so all of it is one entry, shared by the men.');
  const { inHand } = scene;
  if (e.grade !== 'whole' && inHand !== null) {
    const name = scene.men[inHand.position - 1]?.name ?? `The ${positionMan(inHand.position).toLowerCase()}`;
    const caught = e.ballKind !== 'ground' && e.marks.gathered === 1;
    const where = Number.isNaN(inHand.xFt) ? '' : ` ${Math.hypot(inHand.xFt, inHand.yFt).toFixed(0)} ft from home`;
    const when = Number.isNaN(inHand.timeS) ? '' : ` after ${inHand.timeS.toFixed(2)} s`;
    const left =
      e.gather === null || Number.isNaN(e.gather.timeLeftS)
        ? ''
        : `, ${Math.abs(e.gather.timeLeftS).toFixed(2)} s ${e.gather.timeLeftS < 0 ? 'after' : 'before'} the runner, ${e.gather.throwFt.toFixed(0)} ft from ${e.gather.target}${e.gather.targetRecorded ? '' : ' (the best base by the model; no throw was recorded)'}`;
    sentences.push(
      `${name} ${caught ? 'caught it' : e.ballKind === 'ground' ? 'had it in hand' : 'picked it up after it fell,'}${where}${when}${left}: ${chance(e.marks.gathered)}.`,
    );
  } else if (e.grade !== 'whole') {
    sentences.push(
      e.touchedBy > 0 ? `The ${positionMan(e.touchedBy).toLowerCase()} touched it and lost it.` : 'Nobody got to it.',
    );
  }
  sentences.push(e.marks.closed === 1 ? 'An out was made.' : 'No out was made.');
  return sentences;
}
