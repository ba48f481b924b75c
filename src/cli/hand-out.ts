import type { Console } from './console.ts';

/** Prints an answer, or writes it to the file that was asked for. */
export async function handOut(
  answer: string,
  { out, quiet }: { readonly out?: string; readonly quiet?: boolean },
  console: Console,
): Promise<void> {
  if (out === undefined) {
    console.out(answer);
    return;
  }
  const { writeChunks, writeOut } = await import('../commands/table/write-out.ts');
  await writeOut(out, async (draft) => writeChunks(draft, [answer]));
  if (quiet !== true) console.err(`${out} is written\n`);
}
