import { html } from './html.ts';
import type { ReportData } from './read-report.ts';
import { balanceSection, fieldersSection, howToRead, runsSection, teamsSection, trustSection } from './sections.ts';
import { STYLE } from './style.ts';

export interface PageOptions {
  readonly title: string;
  readonly minChances: number;
  readonly programVersion: string;
  readonly now: Date;
}

const PLACES = [
  ['balance', 'Do the books balance?'],
  ['teams', 'Clubs'],
  ['defenders', 'Defenders'],
  ['runs', 'Runs to come'],
  ['trust', 'Can these numbers be used?'],
] as const;

/** The whole report as one HTML page: no script, nothing fetched, readable without the book. */
export function reportPage(data: ReportData, { title, minChances, programVersion, now }: PageOptions): string {
  const plays = data.plays.map((row) => `${row.n} ${row.ball_kind}`).join(', ');
  const { runs, window, draws, seed } = data.settings;
  const body = html`<header>
<h1>${title}, ${data.season}</h1>
<p class="mute">Balls in play: ${plays}. Build ${data.buildId} (runs ${runs ?? ''}, window ${window ?? ''}, ${draws ?? ''} draws, seed ${seed ?? ''}) of Leatherbook ${programVersion}; report of ${now.toISOString().slice(0, 10)}.</p>
</header>
<nav aria-label="Parts of the report"><ul>${PLACES.map(([id, words]) => html`<li><a href="#${id}">${words}</a></li>`)}</ul></nav>
<main>
${howToRead()}
${balanceSection(data)}
${teamsSection(data)}
${fieldersSection(data, minChances)}
${runsSection(data)}
${trustSection(data)}
</main>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${html`${title}, ${data.season}`.text}</title>
<style>${STYLE}</style>
</head>
<body>
${body.text}
</body>
</html>
`;
}
