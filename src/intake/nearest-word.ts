/** Edit distance (insertions, deletions, replacements), one row of the usual table at a time. */
function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const current = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = previous[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      current.push(Math.min(replaced, previous[j]! + 1, current[j - 1]! + 1));
    }
    previous = current;
  }
  return previous[b.length]!;
}

/** The candidate closest in spelling, case apart; undefined when none is close enough to be a slip of the hand. */
export function nearestWord(word: string, candidates: readonly string[]): string | undefined {
  const wanted = word.toLowerCase();
  let best: string | undefined;
  // Not so far that nothing of the word is left.
  let bestDistance = Math.min(Math.max(2, Math.floor(word.length / 3)), word.length - 1) + 1;
  for (const candidate of candidates) {
    const lower = candidate.toLowerCase();
    // A word cut short, or with something added, is a slip too.
    const cut = Math.min(wanted.length, lower.length) > 2 && (lower.startsWith(wanted) || wanted.startsWith(lower));
    const distance = cut ? 1 : editDistance(wanted, lower);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** " Did you mean x?" or nothing, for the end of a message. */
export function didYouMean(word: string, candidates: readonly string[]): string {
  const nearest = nearestWord(word, candidates);
  return nearest === undefined ? '' : ` Did you mean '${nearest}'?`;
}

/** A list for a message, cut when it is long. */
export function listWords(words: readonly string[], limit = 40): string {
  if (words.length === 0) return '(none)';
  const shown = words
    .slice(0, limit)
    .map((word) => `'${word}'`)
    .join(', ');
  return words.length > limit ? `${shown} and ${words.length - limit} more` : shown;
}
