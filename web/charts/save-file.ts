/** Has the browser save `blob` as a file of this name. */
export function saveFile(name: string, blob: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name.replaceAll(/[^\p{L}\p{N}._-]+/gu, '-');
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
