/**
 * Puts a text on the clipboard, also one that is still on its way: a browser wants to be asked at once, while it knows
 * that the user did something. Where a page may not use the clipboard (not on this machine, no TLS), an old way serves.
 */
export async function copyText(text: Promise<string>): Promise<void> {
  if (navigator.clipboard === undefined) {
    copyFromField(await text);
    return;
  }
  const type = 'text/plain';
  const blob = text.then((words) => new Blob([words], { type }));
  await navigator.clipboard.write([new ClipboardItem({ [type]: blob })]);
}

function copyFromField(text: string): void {
  const field = document.createElement('textarea');
  field.value = text;
  field.className = 'visually-hidden';
  document.body.append(field);
  field.select();
  document.execCommand('copy');
  field.remove();
}
