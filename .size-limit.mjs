import { readFileSync } from 'node:fs';

const FOLDER = 'dist/web/';
const manifest = JSON.parse(readFileSync(`${FOLDER}.vite/manifest.json`, 'utf8'));

/** Scripts and styles that `names` load before they show anything. */
function filesOf(names, seen = new Set()) {
  return names.flatMap((name) => {
    if (seen.has(name)) return [];
    seen.add(name);
    const { file, css = [], imports = [] } = manifest[name];
    return [file, ...css].map((path) => FOLDER + path).concat(filesOf(imports, seen));
  });
}

const page = (name) => filesOf(['index.html', `pages/${name}-page.svelte`]);

export default [
  { name: 'the first page', path: page('season/season'), limit: '90 kB', gzip: true },
  { name: 'defenders', path: page('defenders/defenders'), limit: '90 kB', gzip: true },
  { name: 'teams', path: page('teams/teams'), limit: '90 kB', gzip: true },
  { name: 'plays', path: page('plays/plays'), limit: '90 kB', gzip: true },
  { name: 'plan', path: page('plan/plan'), limit: '90 kB', gzip: true },
  { name: 'trust', path: page('trust/trust'), limit: '90 kB', gzip: true },
];
