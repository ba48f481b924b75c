import type { IFlattenedRuleSet } from 'dependency-cruiser';
import { BROWSER_LAYERS, DATABASE_CONNECTOR, LAYERS, QUEUE_CONNECTOR, SHARED_FILES } from './layer-order.ts';

const escapeDots = (path: string) => path.replaceAll('.', '\\.');

/** Rules for dependency-cruiser, generated from the layer list so that the order is written down once. */
export function layerRules(): IFlattenedRuleSet {
  const shared = `^(${SHARED_FILES.map(escapeDots).join('|')})$`;
  const upward = LAYERS.map((layer, rank) => ({
    name: `${layer}-imports-upward`,
    severity: 'error' as const,
    from: { path: `^src/${layer}/` },
    to: { path: '^src/', pathNot: [`^src/(${LAYERS.slice(0, rank + 1).join('|')})/`, shared] },
  }));
  return {
    forbidden: [
      ...upward,
      { name: 'circle', severity: 'error', from: {}, to: { circular: true } },
      { name: 'shared-file-imports', severity: 'error', from: { path: shared }, to: { path: '.' } },
      {
        name: 'database-outside-connector',
        severity: 'error',
        from: { path: '^src/', pathNot: `^${escapeDots(DATABASE_CONNECTOR)}$` },
        to: { path: '(^|/)@duckdb/' },
      },
      {
        name: 'queue-outside-connector',
        severity: 'error',
        from: { path: '^src/', pathNot: `^${escapeDots(QUEUE_CONNECTOR)}$` },
        to: { path: '(^|/)(pg-boss|pg)(/|$)' },
      },
      {
        name: 'web-needs-a-server',
        severity: 'error',
        from: { path: '^web/' },
        to: {
          path: '^src/',
          pathNot: [`^src/(${BROWSER_LAYERS.join('|')})/`, shared],
          dependencyTypesNot: ['type-only'],
        },
      },
      {
        name: 'web-needs-node',
        severity: 'error',
        from: { path: '^web/', pathNot: '^web/vite\\.config\\.ts$' },
        to: { dependencyTypes: ['core'] },
      },
      {
        name: 'leaves-web',
        severity: 'error',
        from: { path: '^web/' },
        to: { path: '^(test|e2e|checks|bench|scripts)/' },
      },
      {
        name: 'leaves-src',
        severity: 'error',
        from: { path: '^src/' },
        to: { path: '^(web|e2e|test|checks|bench|scripts)/' },
      },
      { name: 'unresolved', severity: 'error', from: { path: '^(src|web)/' }, to: { couldNotResolve: true } },
    ],
  };
}
