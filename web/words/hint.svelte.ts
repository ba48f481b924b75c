import { WORDS, type Word } from './words.ts';

interface Hint {
  readonly text: string;
  readonly near: DOMRect;
}

let hint = $state.raw<Hint | null>(null);

export const currentHint = () => hint;

export function closeHint(): void {
  hint = null;
}

/** Id of the sentence that stands, unseen, on every page for those who have the page read to them. */
export const sentenceId = (word: Word) => `word-${word.replaceAll(' ', '-')}`;

/** An attachment: shows the word's sentence while the pointer rests on the element or the focus is in it. */
export function explained(word: Word): (element: HTMLElement) => () => void {
  return (element) => {
    const show = () => {
      hint = { text: WORDS[word], near: element.getBoundingClientRect() };
    };
    element.setAttribute('aria-describedby', sentenceId(word));
    const shows = ['pointerenter', 'focusin'] as const;
    const hides = ['pointerleave', 'focusout'] as const;
    for (const type of shows) element.addEventListener(type, show);
    for (const type of hides) element.addEventListener(type, closeHint);
    return () => {
      for (const type of shows) element.removeEventListener(type, show);
      for (const type of hides) element.removeEventListener(type, closeHint);
      closeHint();
    };
  };
}
