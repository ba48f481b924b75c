/**
 * Puts the output of the default demo into README.md, between the lines `<!-- demo: TITLE -->` and `<!-- end -->`, and
 * its play into the explain command: `npx tsx scripts/refresh-readme.ts DEMO_OUTPUT`, where DEMO_OUTPUT is a file that
 * `leatherbook demo` was written to.
 */
import { readFileSync, writeFileSync } from 'node:fs';

const output = readFileSync(process.argv[2] ?? '', 'utf8');
const titles = [...output.matchAll(/^(.+)\n(-+)\n/gm)].filter((match) => match[1]?.length === match[2]?.length);

/** A section of the output, without its heading. */
function sectionOf(title: string): string {
  const at = titles.findIndex((match) => match[1]?.startsWith(title));
  const found = titles[at];
  if (found === undefined) throw new Error(`the demo prints no section ${title}`);
  return output.slice(found.index + found[0].length, titles[at + 1]?.index).trimEnd();
}

const playId = /leatherbook explain (\S+)/.exec(output)?.[1];
if (playId === undefined) throw new Error('the demo names no play to explain');
const readme = readFileSync('README.md', 'utf8')
  .replaceAll(
    /(<!-- demo: (.+) -->\n)[\s\S]*?(<!-- end -->)/g,
    (_, open: string, title: string, close: string) => `${open}\`\`\`\n${sectionOf(title)}\n\`\`\`\n${close}`,
  )
  .replace(/(leatherbook explain )\S+/, `$1${playId}`);
writeFileSync('README.md', readme);
